import type { AddInFunction, AddInParameter, AddInRegistry } from "./add-in";

/** The part of functions.json that calls depend on. */
export interface FunctionsMetadata {
  readonly functions: readonly {
    readonly id: string;
    readonly parameters?: readonly {
      readonly name: string;
      readonly type?: string;
      readonly dimensionality?: string;
      readonly repeating?: boolean;
    }[];
  }[];
}

/**
 * The add-in's functions as the evaluator calls them: parameters from the metadata, code from the module's exports, matched by
 * name in any letter case. Throws an Error for an id without a function, so that no cell is silently left out.
 */
export function addInRegistryOf(
  metadata: FunctionsMetadata,
  exports: Readonly<Record<string, unknown>>,
): AddInRegistry {
  const byName = new Map(Object.entries(exports).map(([name, value]) => [name.toUpperCase(), value]));
  return new Map(
    metadata.functions.map(({ id, parameters = [] }): [string, AddInFunction] => {
      const compute = byName.get(id.toUpperCase());
      if (typeof compute !== "function") throw new Error(`the metadata lists ${id}, which no function implements`);
      return [
        id.toUpperCase(),
        {
          parameters: parameters.map(({ name, type, dimensionality, repeating }): AddInParameter => ({
            name,
            matrix: dimensionality === "matrix",
            repeating: repeating === true,
            type: type === "number" || type === "string" || type === "boolean" ? type : "any",
          })),
          compute: (...given) => (compute as (...given: unknown[]) => unknown)(...given),
        },
      ];
    }),
  );
}
