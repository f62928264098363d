import { runRecalcCommand } from "./recalc/command";
import { runProgram } from "./shared/run-program";

await runProgram("recalc", runRecalcCommand);
