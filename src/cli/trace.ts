import { traceCommand } from "./trace/command";
import { runProgram } from "./shared/run-program";

await runProgram("trace", traceCommand);
