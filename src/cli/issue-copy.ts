import { issueCopyCommand } from "./issue-copy/command";
import { consoleOutput } from "./shared/output";

process.exitCode = issueCopyCommand(process.argv.slice(2), consoleOutput());
