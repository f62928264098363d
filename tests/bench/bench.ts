import { createConsoleOutput } from "../../src/cli/shared/output";
import { coverageCommand } from "./coverage/command";
import { printSpeeds } from "./speeds";

const bundle = "dist/functions.js";
const given = process.argv.slice(2);
if (given.includes("--coverage")) process.exitCode = await coverageCommand(given, bundle, createConsoleOutput());
else await printSpeeds(bundle);
