import { recalcCommand } from "./recalc/command";
import { runProgram } from "./shared/run-program";

await runProgram("recalc", recalcCommand);
