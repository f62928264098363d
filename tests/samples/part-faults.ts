import { orderFaults, publishedOrder } from "../element-order";

const order = publishedOrder("ecma-376");
const ordered = /^xl\/(workbook|styles|sharedStrings|metadata|(worksheets|drawings|charts|tables)\/[^/]+)\.xml$/;

/** What the parts of a workbook's package hold against ECMA-376, each fault behind its part's name. Programs refuse or "repair" such files. */
export function partFaults(parts: ReadonlyMap<string, string>): string[] {
  const checked = [...parts].filter(([name]) => ordered.test(name));
  if (checked.length < 4) throw new Error("these are not the parts of a workbook");
  return checked.flatMap(([name, xml]) => orderFaults(xml, order).map((fault) => `${name}: ${fault}`));
}
