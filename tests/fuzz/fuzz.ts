import { createConsoleOutput } from "../../src/cli/shared/output";
import { fuzzCommand } from "./command";

// Leaves by the exit that ends the helpers.
for (const signal of ["SIGINT", "SIGTERM"] as const) process.on(signal, () => process.exit(2));
process.exitCode = await fuzzCommand(process.argv.slice(2), createConsoleOutput());
