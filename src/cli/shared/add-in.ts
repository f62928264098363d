import * as functions from "../../functions/index";
import metadata from "../../functions/functions.json";
import { type AddInRegistry, registerFunctions } from "../../workbook/index";

/** The add-in's functions with their parameters as declared to Excel. */
export function addInRegistry(): AddInRegistry {
  return registerFunctions(functions, metadata);
}
