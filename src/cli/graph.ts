import { runGraphCommand } from "./graph/command";
import { runProgram } from "./shared/run-program";

await runProgram("graph", runGraphCommand);
