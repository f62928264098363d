import type { AddInFunction, AddInParameter, AddInRegistry } from "./add-in";

const types = ["number", "string", "boolean", "any"] as const;

/** The add-in's functions as listed in functions.json. */
interface FunctionList {
  readonly functions: readonly { readonly id: string; readonly parameters: readonly ListedParameter[] }[];
}

interface ListedParameter {
  readonly name: string;
  readonly type?: string;
  readonly dimensionality?: string;
  readonly repeating?: boolean;
}

/**
 * The add-in's functions with their parameters as declared to Excel.
 * @param code The functions by export name.
 * @param list The contents of functions.json. Throws if it lists a function without code.
 */
export function registerFunctions(code: Readonly<Record<string, unknown>>, list: FunctionList): AddInRegistry {
  const byId = new Map(Object.entries(code).map(([name, compute]) => [name.toUpperCase(), compute]));
  return new Map(
    list.functions.map(({ id, parameters }): [string, AddInFunction] => {
      const compute = byId.get(id) as AddInFunction["compute"] | undefined;
      if (!compute) throw new Error(`functions.json lists ${id}, which the add-in does not export`);
      return [id, { parameters: parameters.map(readParameter), compute }];
    }),
  );
}

function readParameter({ name, type, dimensionality, repeating = false }: ListedParameter): AddInParameter {
  const known = types.find((candidate) => candidate === type) ?? "any";
  return { name, matrix: dimensionality === "matrix", repeating, type: known };
}
