import { call, spillingCall } from "../blocks/add-in";
import { onSheet } from "../blocks/address";
import { columnHeads, section } from "../blocks/heading";
import { guardedCell, placeIn, tableHeads, tableLook } from "../blocks/result-tables";
import type { Sheet } from "../blocks/sheet";
import { looks, native, style } from "../blocks/style";
import { takesUncertainties } from "./choices";
import { hasReadings, type RunForm } from "./conditions";
import { sheetOf } from "./places";
import { columns } from "./steps";
import { assumptionAt } from "./uncertainty-places";
import { belowWholeTest, wholeTestPlaces } from "./whole-test";

const heads = belowWholeTest + 1;
const first = heads + 1;
const symbols = ["C", "n", "r2", "count", "dof", "t", "s_n", "s_lnC", "q50", "n_data", "prior_share"];
const last = first + symbols.length - 1;

/** The row that says whether the line and the whole test agree. */
const agreementRow = last + 1;

/** Where other sheets find the fitted line. */
export interface LinePlaces {
  /** Whether the line of the steps and the whole test agree, in a word. */
  readonly agreement: string;
}

/** The line through the steps of the readings (columns K and N), which the whole test must find again from the raw readings. */
export function lineSection(sheet: Sheet, form: RunForm): LinePlaces {
  section(
    sheet,
    belowWholeTest,
    ["Z", "AF"],
    "The line once more, through the steps of the readings (columns K and N)",
  );
  columnHeads(sheet, heads, "Z", tableHeads);
  const { units } = form;
  const fit = (...uncertainties: readonly string[]) =>
    call(
      "LEAKAGEFIT",
      columns.induced,
      columns.flow,
      "TestTechnique",
      "ConfidenceLevel",
      columns.include,
      ...uncertainties,
    );
  const relative = assumptionAt(units, "flow uncertainty");
  const ofFlow = `IF((${columns.flow}="")+(${relative}=""),"",${columns.flow}*${relative})`;
  const weighted = fit(assumptionAt(units, "pressure uncertainty"), ofFlow);
  spillingCall(
    sheet,
    `Z${first}:AF${last}`,
    `IF(${hasReadings},IF(${takesUncertainties},${weighted},${fit()}),"")`,
    (row, column) => tableLook(column, symbols[row] ?? ""),
    form.readings !== undefined,
  );
  const there = wholeTestPlaces(form);
  const same = ["C", "n", "r2", "count"].map((symbol) => {
    const row = first + placeIn(symbols, symbol);
    const [here, whole] = [guardedCell(symbol, `AA${row}`, `AB${row}`), there.value(symbol)];
    return `ABS(${here}-${whole})<=0.000000001*ABS(${whole})`;
  });
  sheet.put(`Z${agreementRow}`, "Steps and whole test: C, n, r² and count", looks.strong);
  sheet.formula(
    `AB${agreementRow}`,
    `IF(${hasReadings},IFERROR(IF(AND(${same.join(",")}),"agree","differ"),"incomplete"),"")`,
    style({ bold: true }, native()),
  );
  sheet.paint(`Z${agreementRow}:AF${agreementRow}`, looks.label);
  return { agreement: onSheet(sheetOf(form.direction, form.run), `AB${agreementRow}`) };
}
