import { readFileSync } from "node:fs";
import vm from "node:vm";

export type CellFunction = (...given: unknown[]) => unknown;

/** The functions of the built bundle by id: what a user's machine runs is what is timed. */
export function shippedFunctions(file: string): Map<string, CellFunction> {
  const functions = new Map<string, CellFunction>();
  const host = {
    ErrorCode: { invalidValue: "#VALUE!", notAvailable: "#N/A" },
    Error: class extends Error {
      constructor(
        readonly code: string,
        message: string,
      ) {
        super(message);
      }
    },
    associate: (id: string, call: CellFunction) => functions.set(id, call),
  };
  Object.assign(globalThis, { CustomFunctions: host });
  vm.runInThisContext(readFileSync(file, "utf8"), { filename: file });
  return functions;
}
