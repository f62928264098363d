import * as functions from "../../functions/index";
import metadata from "../../functions/functions.json";
import { type AddInRegistry, registerFunctions } from "../../workbook/index";

/** The add-in's functions with their parameters as Excel is told them. */
export function addInRegistry(): AddInRegistry {
  return registerFunctions(functions, metadata);
}
