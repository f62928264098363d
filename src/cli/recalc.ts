import { recalcCommand } from "./recalc/command";
import { consoleOutput } from "./shared/output";

process.exitCode = recalcCommand(process.argv.slice(2), consoleOutput());
