/** Why a function that is not evaluated here is not, by its name in upper case as the file has it. */
export function unknownFunction(name: string): string {
  const ofAddIn = /^_XLL\.(.+)$/.exec(name)?.[1] ?? /^_XLDUDF_(.+)$/.exec(name)?.[1];
  if (ofAddIn !== undefined) return `the function ${ofAddIn} of another add-in`;
  if (name.startsWith("_XLUDF.") || name.startsWith("__XLUDF."))
    return `the function ${name.replace(/^_+XLUDF\./, "")} of another program`;
  return `the function ${name} is not one of those that are calculated here`;
}
