import { newCommand } from "./new/command";
import { runProgram } from "./shared/run-program";

const forms = new URL("../../sample-workbooks/blank/", import.meta.url);

await runProgram("new", (given, output) => newCommand(given, output, forms));
