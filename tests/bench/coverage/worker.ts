import { parentPort, workerData } from "node:worker_threads";
import { shippedFunctions } from "../shipped";
import { outcomesOf, type Job } from "./outcomes";

const functions = shippedFunctions(workerData as string);

// Answers each job that the main thread sends with the outcomes of its tests.
parentPort?.on("message", (job: Job) => parentPort?.postMessage(outcomesOf(job, functions)));
