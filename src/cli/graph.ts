import { graphCommand } from "./graph/command";
import { runProgram } from "./shared/run-program";

await runProgram("graph", graphCommand);
