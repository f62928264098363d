import { readFileSync } from "node:fs";
import { join } from "node:path";
import vm from "node:vm";

/** What a cell shows where a function signals an error. */
export interface ShownError {
  readonly error: string;
  readonly message: string;
}

export interface Excel {
  /** The ids in the order in which the file registered them. */
  readonly registered: readonly string[];
  /** Calls a function as Excel does and gives its result as plain data; an error is a ShownError. */
  call(id: string, ...values: readonly unknown[]): unknown;
}

interface Failure {
  readonly code: string;
  readonly message: string;
}

/**
 * Loads a built functions.js as Excel's runtime does, in a world of its own with string code generation off: nothing is there but
 * `CustomFunctions`. Omitted arguments arrive as null, a single value reaches a range parameter as [[value]], and an invocation
 * object comes last.
 */
export function startExcel(dist: string): Excel {
  const metadata = JSON.parse(readFileSync(join(dist, "functions.json"), "utf8")) as {
    functions: { id: string; parameters: { dimensionality?: string }[] }[];
  };
  const registered: string[] = [];
  const functions = new Map<string, (...values: unknown[]) => unknown>();
  const context = vm.createContext({}, { codeGeneration: { strings: false, wasm: false } });
  const world = vm.runInContext(
    `globalThis.CustomFunctions = {
       ErrorCode: { invalidValue: "#VALUE!", notAvailable: "#N/A", divisionByZero: "#DIV/0!", invalidNumber: "#NUM!" },
       Error: class extends Error { constructor(code, message) { super(message); this.code = code; } },
     };
     ({ CustomFunctions, read: JSON.parse, isError: (x) => x instanceof Error })`,
    context,
  ) as { CustomFunctions: Record<string, unknown>; read: (text: string) => unknown; isError: (x: unknown) => boolean };
  world.CustomFunctions["associate"] = (id: string, call: (...values: unknown[]) => unknown) => {
    registered.push(id);
    functions.set(id, call);
  };
  vm.runInContext(readFileSync(join(dist, "functions.js"), "utf8"), context, { filename: "functions.js" });

  /** JSON would hide NaN and Infinity, which Excel turns into 0 inside a range without a word: structuredClone keeps them. */
  const plain = (value: unknown): unknown => {
    if (Array.isArray(value)) return value.map(plain);
    if (world.isError(value)) return shown(value as Failure);
    return structuredClone(value);
  };
  const shown = ({ code, message }: Failure): ShownError => ({ error: code, message });

  return {
    registered,
    call: (id, ...values) => {
      const call = functions.get(id);
      const entry = metadata.functions.find((candidate) => candidate.id === id);
      if (!call || !entry) throw new Error(`${id} is not registered or not listed`);
      const sent = entry.parameters.map(({ dimensionality }, index) => {
        const value = values[index] ?? null;
        return dimensionality === "matrix" && value !== null && !Array.isArray(value) ? [[value]] : value;
      });
      try {
        return plain(call(...(world.read(JSON.stringify(sent)) as unknown[]), { functionName: id }));
      } catch (thrown) {
        if (world.isError(thrown) && typeof (thrown as Failure).code === "string") return shown(thrown as Failure);
        throw thrown;
      }
    },
  };
}
