/** What a budget is made for. Flows, rates and areas differ only in factors that are exactly known, so that their relative uncertainty is that of ln q. */
export type Output =
  | { readonly of: "exponent" }
  /** C of the line as tested, before any reference conditions. */
  | { readonly of: "coefficient" }
  /** The flow at a pressure in Pa at reference conditions, or that flow per volume or area. C_L is that of the line at 1 Pa, where the curve itself need not be known. */
  | { readonly of: "flow"; readonly pressure: number; readonly perSize?: boolean; readonly ofLine?: boolean };

/** The exponent's uncertainty is absolute, every other one relative. */
export function isAbsolute(output: Output): boolean {
  return output.of === "exponent";
}
