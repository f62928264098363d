import { traceCommand } from "./trace/command";
import { consoleOutput } from "./shared/output";

process.exitCode = traceCommand(process.argv.slice(2), consoleOutput());
