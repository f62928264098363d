import * as functions from "../../functions/index";
import metadata from "../../functions/functions.json";
import type { AddInFunction, AddInParameter, AddInRegistry } from "../../workbook/index";

const types = ["number", "string", "boolean", "any"] as const;

/** The add-in's functions with their parameters as Excel is told them. Throws where the two do not belong together. */
export function addInRegistry(): AddInRegistry {
  const code = new Map(Object.entries(functions).map(([name, compute]) => [name.toUpperCase(), compute]));
  return new Map(
    metadata.functions.map(({ id, parameters }): [string, AddInFunction] => {
      const compute = code.get(id) as AddInFunction["compute"] | undefined;
      if (!compute) throw new Error(`functions.json lists ${id}, which the add-in does not export`);
      return [id, { parameters: parameters.map(parameterOf), compute }];
    }),
  );
}

interface ListedParameter {
  readonly name: string;
  readonly type?: string;
  readonly dimensionality?: string;
  readonly repeating?: boolean;
}

function parameterOf({ name, type, dimensionality, repeating = false }: ListedParameter): AddInParameter {
  const known = types.find((candidate) => candidate === type) ?? "any";
  return { name, matrix: dimensionality === "matrix", repeating, type: known };
}
