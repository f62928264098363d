import { call, quoted } from "../blocks/add-in";
import { onSheet } from "../blocks/address";
import { columnHeads, section } from "../blocks/heading";
import { palette } from "../blocks/palette";
import type { Sheet } from "../blocks/sheet";
import { decimals, looks, native, style } from "../blocks/style";
import type { Conditions } from "./conditions";
import { stepsOf, type Step } from "./line-steps";
import { sheets } from "./places";
import { differenceFormat, nativeLine } from "./native-line";
import type { Direction } from "./readings";
import { columns } from "./steps";
import { guardedCell, placeIn, tableHeads, tableLook } from "./tables";
import type { WholeTestPlaces } from "./whole-test";

const fit = { first: 7, last: 15 } as const;
const steps = { heads: 18, first: 19 } as const;
const symbols = ["C", "n", "r2", "count", "dof", "t", "s_n", "s_lnC", "q50"];

/** Where other sheets find the step-by-step results. */
export interface LinePlaces {
  /** Whether the steps and the whole test agree, in a word. */
  readonly agreement: string;
}

/** The fitted line, then one native formula a row from the line to the results, each compared with the whole test in one call. */
export function lineSections(
  sheet: Sheet,
  direction: Direction,
  conditions: Conditions,
  wholeTest: WholeTestPlaces,
): LinePlaces {
  section(sheet, 5, ["V", "AB"], "Air leakage line, q = C · Δp^{n}, fitted to the logarithms");
  columnHeads(sheet, 6, "V", tableHeads);
  sheet.addIn(
    `V${fit.first}:AB${fit.last}`,
    call("LEAKAGEFIT", columns.induced, columns.flow, quoted("ordinary"), "0.95", columns.include),
    (row, column) => tableLook(column, symbols[row] ?? ""),
  );
  const inFit = (symbol: string) => {
    const row = fit.first + placeIn(symbols, symbol);
    return guardedCell(symbol, `W${row}`, `X${row}`);
  };
  const list = stepsOf(direction, conditions, steps.first, inFit);
  nativeLine(sheet, steps.first + list.length + 3, inFit);
  return stepTable(sheet, list, wholeTest, sheets[direction]);
}

function stepTable(sheet: Sheet, list: readonly Step[], wholeTest: WholeTestPlaces, name: string): LinePlaces {
  section(sheet, steps.heads - 1, ["V", "AB"], "From the line to the result, and the same from the whole test");
  const heads = ["<what it is", "<symbol", "step by step", "whole test", "difference, %", "<<unit", "<<how"];
  columnHeads(sheet, steps.heads, "V", heads);
  list.forEach(({ symbol, label, shown, formula, unit, how, digits }, index) => {
    const row = steps.first + index;
    sheet.rich(`V${row}`, label, looks.label).rich(`W${row}`, shown, looks.label);
    sheet.formula(`X${row}`, formula, native(decimals(digits)));
    sheet.rich(`AA${row}`, unit, looks.unit).rich(`AB${row}`, how, looks.unit);
    sheet.paint(`V${row}:AB${row}`, looks.label);
    if (symbol === "rho_0") return;
    sheet.formula(`Y${row}`, wholeTest.value(symbol), native(decimals(digits)));
    sheet.formula(
      `Z${row}`,
      `IF(COUNT(X${row}:Y${row})<2,"",ROUND(100*(X${row}/Y${row}-1),9))`,
      native(differenceFormat),
    );
  });
  const last = steps.first + list.length - 1;
  const [difference, verdict] = [last + 1, last + 2];
  const differences = `Z${steps.first}:Z${last}`;
  const bold = style({ bold: true, top: palette.petrol, align: "right" });
  sheet
    .put(`V${difference}`, "Largest difference, %", style({ align: "left" }, bold))
    .paint(`W${difference}:AB${difference}`, bold);
  sheet.formula(
    `Z${difference}`,
    `IF(COUNT(${differences})=0,"",MAX(MAX(${differences}),-MIN(${differences})))`,
    style({ format: differenceFormat }, bold),
  );
  sheet.put(`V${verdict}`, "Step by step and whole test", looks.strong).paint(`W${verdict}:AB${verdict}`, looks.label);
  const compared = `COUNT(${differences})<${list.length - 1}`;
  sheet.formula(
    `Z${verdict}`,
    `IF(${compared},"incomplete",IF(Z${difference}<=0.000001,"agree","differ"))`,
    style({ bold: true }, native()),
  );
  return { agreement: onSheet(name, `Z${verdict}`) };
}
