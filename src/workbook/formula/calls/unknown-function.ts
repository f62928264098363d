import { sentence } from "../../file/problem";

/** Why a function that is not evaluated here is not, by its name in upper case as the file has it. */
export function unknownFunction(name: string): string {
  const ofAddIn = /^_XLL\.(.+)$/.exec(name)?.[1] ?? /^_XLDUDF_(.+)$/.exec(name)?.[1];
  if (ofAddIn !== undefined) return sentence`the function ${ofAddIn} of another add-in`;
  if (name.startsWith("_XLUDF.") || name.startsWith("__XLUDF."))
    return sentence`the function ${name.replace(/^_+XLUDF\./, "")} of another program`;
  return sentence`the function ${name} is not one of those that are calculated here`;
}
