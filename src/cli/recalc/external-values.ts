import { type Evaluation, formatCount, formatList, sentence } from "../../workbook/index";

/** Values of other workbooks are those that the file keeps, which may have changed since. */
export function cautionExternalValues({ cells }: Evaluation): string[] {
  const reading = cells.filter(
    ({ externals, role, outcome }) => externals.length > 0 && role === "formula" && outcome.evaluated,
  );
  if (reading.length === 0) return [];
  const files = [...new Set(reading.flatMap(({ externals }) => externals))].map((file) => sentence`${file}`);
  const addresses = reading.map(({ address }) => address);
  return [
    `${formatCount(reading.length, "cell")} (${formatList(addresses, 4)}) read other workbooks (${formatList(files, 4)}): their values are those that this file kept when it was saved`,
  ];
}
