import { issueCopyCommand } from "./issue-copy/command";
import { runProgram } from "./shared/run-program";

await runProgram("issue-copy", issueCopyCommand);
