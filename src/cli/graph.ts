import { graphCommand } from "./graph/command";
import { consoleOutput } from "./shared/output";

process.exitCode = await graphCommand(process.argv.slice(2), consoleOutput());
