import { call } from "../blocks/add-in";
import { columnHeads, section } from "../blocks/heading";
import type { Sheet } from "../blocks/sheet";
import { decimals, fromAddIn, looks, native, palette, style } from "../blocks/style";
import { seriesRows } from "./series-steps";

interface GainPlaces {
  readonly lastFlow: string;
  readonly lastUncertainty: string;
  readonly change: string;
  readonly word: string;
  readonly significant: string;
}

const { first: start, last: end } = seriesRows;

/** Rows of the gains: a step each, the state as found left out; then all together. */
export const gainRows = { first: 8, last: 7 + end - start, total: 8 + end - start } as const;

const { first, last, total } = gainRows;

/** What each step won against the one before, with limits and significance in one call, and the hole that such a flow stands for. */
export function gainsTable(sheet: Sheet): GainPlaces {
  section(sheet, first - 3, ["R", "AF"], "Gains, a row a step; uncertainties at 95 %");
  columnHeads(sheet, first - 1, "R", [
    "<step",
    "<what was done",
    "q50 before|m³/h",
    "q50 after|m³/h",
    "std. unc.|before",
    "std. unc.|after",
    "won|m³/h",
    "std. unc.|m³/h",
    "lower|m³/h",
    "upper|m³/h",
    "% of|before",
    "% of|the first",
    "significance",
    "real hole|cm²",
    "as one|hole, mm",
  ]);
  const plain = native(decimals(1));
  for (let row = first; row <= last; row++) {
    const step = row - first + start + 1;
    const known = (value: string) => `IF(J${step}="","",${value})`;
    const above = (letter: string) => known(lastNumber(`${letter}$${start}:${letter}${step - 1}`));
    sheet.formula(`R${row}`, known(`B${step}`), native(undefined, "left"));
    sheet.formula(`S${row}`, known(`C${step}&""`), style({ shrink: true }, looks.label));
    sheet.formula(`T${row}`, above("J"), plain).formula(`U${row}`, known(`J${step}`), plain);
    sheet.formula(`V${row}`, above("P"), plain).formula(`W${row}`, known(`P${step}`), plain);
    sheet.formula(`AE${row}`, holeArea(`T${row}`, `U${row}`), plain);
  }
  allTogether(sheet);
  const column = (letter: string, to = letter) => `${letter}${first}:${to}${total}`;
  const difference = call("LEAKAGEDIFFERENCE", column("T"), column("U"), column("V"), column("W"), "DeviceUncertainty");
  sheet.addIn(column("X", "AD"), difference, (row, at) => {
    const look = at === 6 ? fromAddIn(undefined, "center") : fromAddIn(decimals(1));
    return style({ bold: at === 0 || row === total - first, shrink: true }, look);
  });
  const holes = call("HOLEDIAMETER", column("AE"));
  sheet.addIn(column("AF"), holes, fromAddIn(decimals(0)));
  sheet.when(`R${first}:AF${total}`, `$AD${first}="not significant"`, { font: { color: { rgb: palette.grey } } });
  sheet.when(`AD${first}:AD${total}`, `$AD${first}="significant"`, {
    font: { bold: true, color: { rgb: palette.pass } },
  });
  sheet.formula(
    `S${total + 1}`,
    `"Changes that are significant: "&COUNTIF(AD${first}:AD${last},"significant")&" of "&COUNT(X${first}:X${last})`,
    looks.note,
  );
  return {
    lastFlow: `U${total}`,
    lastUncertainty: `W${total}`,
    change: `X${total}`,
    word: `AD${total}`,
    significant: `S${total + 1}`,
  };
}

/** The number furthest down; #N/A where one of the cells is an error: the number above it belongs to another state of the house. */
function lastNumber(cells: string): string {
  return `IF(ISERROR(SUM(${cells})),NA(),IFERROR(LOOKUP(9E+99,${cells}),""))`;
}

/** The sharp opening that passes a gain at 50 Pa with C_d 0.6, cm²; blank where nothing was won. */
function holeArea(before: string, after: string): string {
  const area = `(${before}-${after})/3600/0.6*SQRT(1.2041/2/50)*10000`;
  return `IF(COUNT(${before},${after})<2,"",IF(${before}<=${after},"",${area}))`;
}

function allTogether(sheet: Sheet): void {
  const sum = style({ bold: true, top: palette.petrol, align: "right", format: decimals(1) });
  const steps = (letter: string) => `${letter}${start + 1}:${letter}${end}`;
  const lastOf = (letter: string) => lastNumber(steps(letter));
  const whole = (cell: string, value: string) =>
    sheet.formula(cell, `IF(OR(COUNT(${steps("J")})=0,J${start}=""),"",${value})`, sum);
  sheet.put(`R${total}`, null, sum).put(`S${total}`, "All steps together", style({ align: "left" }, sum));
  whole(`T${total}`, `J${start}`);
  whole(`U${total}`, lastOf("J"));
  whole(`V${total}`, `P${start}`);
  whole(`W${total}`, lastOf("P"));
  sheet.formula(`AE${total}`, holeArea(`T${total}`, `U${total}`), sum);
}
