/** The sizes of the units that have a flow, added; blank where one of them is missing, which a sum would take for nothing. */
export function sumOfSizes(flows: string, sizes: string): string {
  return `IF(SUMPRODUCT(ISNUMBER(${flows})*(1-ISNUMBER(${sizes})))>0,"",SUMIF(${flows},">0",${sizes}))`;
}
