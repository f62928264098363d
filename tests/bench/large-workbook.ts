import { writeXlsx } from "hucre/xlsx";

/** Formulas of the plain line of a pressurization test, one column each; `r` is the row, `p` the row above. */
const formulas: ((r: number, p: number) => string)[] = [
  (r) => `A${r}-$B$1`,
  (r) => `ABS(C${r})`,
  (r) => `LN(D${r})`,
  (r) => `20*B${r}^0.5`,
  (r) => `F${r}*SQRT(1.2041/1.19)`,
  (r) => `LN(G${r})`,
  (r) => `EXP(2.9+0.65*E${r})`,
  (r) => `ROUND(100*(G${r}/I${r}-1),3)`,
  (r) => `IF(ABS(J${r})>50,"look","fine")`,
  (r, p) => (p < 2 ? `H${r}` : `L${p}+H${r}`),
  (r, p) => (p < 2 ? `SUM(G$2:G${r})` : `IF(COUNT(A${r},B${r})=2,MAX(M${p},G${r}),M${p})`),
  (r) => `INDEX($D$2:$D$1001,MATCH(D${r},$D$2:$D$1001,0))/50`,
];

/** A workbook of 12 000 ordinary formula cells: 1 000 readings, twelve columns of formulas, one of them a chain of 1 000. */
export async function largeWorkbook(rows = 1000): Promise<Uint8Array> {
  const body = Array.from({ length: rows }, (_, index) => {
    const row = index + 2;
    const inputs = [-10 - (index % 500) / 10, 40 + (index % 311)];
    return { row, inputs, written: formulas.map((formula) => formula(row, row - 1)) };
  });
  const cells = new Map<string, { value: null; formula: string }>();
  for (const { row, written } of body) {
    written.forEach((formula, column) => cells.set(`${row - 1},${column + 2}`, { value: null, formula }));
  }
  return writeXlsx({
    sheets: [{ name: "Readings", rows: [["baseline", -1.5], ...body.map(({ inputs }) => inputs)], cells }],
  });
}
