import { call, spillingCall } from "../blocks/add-in";
import { columnHeads, section } from "../blocks/heading";
import type { Sheet } from "../blocks/sheet";
import { decimals, fromAddIn, looks, native, palette } from "../blocks/style";
import type { RunPlaces } from "./direction";
import { furtherFlow } from "./further-fans";
import { readingRows } from "./reading-rows";
import { shadowLines } from "./shadow-lines";
import { agreement, isOrdinary, onRun, shadowBlock, shadowLineCount } from "./shadow-places";

/** A difference as a fraction; none at all is a plain 0. */
export const differenceFormat = '0.0E+0;"−"0.0E+0;0';

/** Rounded where only the order of the arithmetic differs. */
export function differenceOf(one: string, other: string): string {
  return `ROUND(${one}/${other}-1,10)`;
}

export interface ShadowPlaces {
  readonly at: (key: string) => string;
  /** Ranges that hold "confirms" or "differs". */
  readonly verdicts: readonly [string, string];
}

/** One run by native functions: its lines, each beside the add-in's figure, and its readings with their logarithms. */
export function shadowRun(sheet: Sheet, run: RunPlaces, index: number): ShadowPlaces {
  const { title, lines: first, readingHeads, readings, last } = shadowBlock(index);
  const { units } = run.form;
  const name = `${run.direction.charAt(0).toUpperCase()}${run.direction.slice(1)}${run.run === 1 ? "" : ", second run"}`;
  section(sheet, title, ["B", "M"], name);
  columnHeads(sheet, title + 1, "B", [
    "<what it is",
    "<symbol",
    "native",
    "add-in",
    "difference",
    "outcome",
    "<<unit",
    "",
    "<how",
  ]);
  sheet.paint(`K${title + 1}:M${title + 1}`, looks.columnHead);
  const lines = shadowLines(run, index);
  if (lines.length !== shadowLineCount) throw new Error(`${lines.length} lines where the block has ${shadowLineCount}`);
  const made = `COUNTA(${run.readings})>0`;
  lines.forEach(({ label, shown, formula, compared, digits, unit, how, ofLine }, place) => {
    const row = first + place;
    sheet.rich(`B${row}`, label, looks.label).rich(`C${row}`, shown, looks.label);
    sheet.formula(`D${row}`, `IF(${made},IFERROR(${formula},NA()),"")`, native(decimals(digits)));
    sheet.rich(`H${row}`, unit, looks.unit).rich(`J${row}`, how, looks.unit).paint(`B${row}:M${row}`, looks.label);
    if (compared === undefined) return;
    sheet.formula(`E${row}`, `IF(${made},${compared},"")`, native(decimals(digits)));
    const other = ofLine ? `IF(${isOrdinary},${judged(row)},"other technique")` : judged(row);
    sheet.formula(
      `F${row}`,
      `IF(COUNT(D${row}:E${row})<2,"",${differenceOf(`D${row}`, `E${row}`)})`,
      native(differenceFormat),
    );
    sheet.formula(`G${row}`, `IF(${made},${other},"")`, native());
  });
  const there = onRun(run);
  const flow = units.flow;
  columnHeads(sheet, readingHeads, "B", [
    "<reading, and whether it takes part",
    "",
    "induced,|native|Pa",
    "|INDUCED-|PRESSURE",
    `indicated,|native|${flow}`,
    "|by|FANFLOW",
    `envelope,|native|${flow}`,
    "|as on|its sheet",
    "|ln Δp|native",
    "|ln q|native",
    "largest|difference|",
    "|outcome|",
  ]);
  const [factor, baseline] = ["k_q", "dp0"].map((key) => `$D$${first + lines.findIndex((line) => line.key === key)}`);
  const range = (letter: string) => there(`${letter}${readingRows.first}:${letter}${readingRows.last}`);
  const fan = call("FANFLOW", `IF(${range("F")}="","",${range("F")})`, ...["G", "H", "I", "J"].map(range));
  spillingCall(
    sheet,
    `G${readings}:G${last}`,
    `IF(${made},${fan},"")`,
    () => fromAddIn(decimals(1)),
    run.form.readings !== undefined,
  );
  for (let row = readings; row <= last; row++) {
    const reading = readingRows.first + row - readings;
    const cell = (letter: string) => there(`${letter}${reading}`);
    const [pressure, fanPressure] = [cell("D"), cell("F")];
    // Text instead of a number must not leave a reading out; whoever sets its use to "no" does.
    const without = `IF(OR(${cell("C")}="no",COUNTA(${pressure},${fanPressure})=0),"",NA())`;
    const typed = (formula: string) => `IF(COUNT(${pressure},${fanPressure})<2,${without},${formula})`;
    sheet.formula(
      `B${row}`,
      `IF(${cell("D")}="","",${row - readings + 1}&IF(${cell("C")}="no",": left out",""))`,
      looks.label,
    );
    sheet.formula(`D${row}`, typed(`IFERROR(${cell("D")}-${baseline},NA())`), native(decimals(2)));
    sheet.formula(`E${row}`, typed(cell("K")), native(decimals(2)));
    sheet.formula(
      `F${row}`,
      typed(
        `IFERROR(IF(AND(${cell("F")}>=${cell("I")},${cell("F")}<=${cell("J")}),${cell("G")}*${cell("F")}^${cell("H")},NA()),NA())`,
      ),
      native(decimals(1)),
    );
    sheet.formula(`H${row}`, typed(`(F${row}+SUM(${there(furtherFlow(reading))}))*${factor}`), native(decimals(1)));
    sheet.formula(`I${row}`, typed(cell("N")), native(decimals(1)));
    const log = (value: string) => typed(`IF(${cell("C")}="no","",LN(ABS(${value})))`);
    sheet
      .formula(`J${row}`, log(`D${row}`), native(decimals(5)))
      .formula(`K${row}`, log(`H${row}`), native(decimals(5)));
    const pairs = [
      ["D", "E"],
      ["F", "G"],
      ["H", "I"],
    ] as const;
    const largest = pairs.map(([one, other]) => `ABS(${differenceOf(`${one}${row}`, `${other}${row}`)})`).join(",");
    sheet.formula(`L${row}`, typed(`IF(COUNT(D${row}:I${row})<6,"",MAX(${largest}))`), native(differenceFormat));
    const exact = pairs.map(([one, other]) => `ABS(${one}${row}/${other}${row}-1)<=${agreement}`).join(",");
    sheet.formula(
      `M${row}`,
      typed(`IF(COUNT(D${row}:I${row})<6,"incomplete",IF(AND(${exact}),"confirms","differs"))`),
      native(),
    );
    sheet.paint(`B${row}:M${row}`, looks.label);
  }
  const verdicts = [`$G$${first}:$G$${first + lines.length - 1}`, `$M$${readings}:$M$${last}`] as const;
  for (const cells of verdicts)
    sheet.when(cells.replaceAll("$", ""), `${cells.replaceAll("$", "").split(":")[0]}="differs"`, {
      font: { bold: true, color: { rgb: palette.fail } },
    });
  const at = (key: string) => `$D$${first + lines.findIndex((line) => line.key === key)}`;
  return { at, verdicts };
}

function judged(row: number): string {
  const same = `ABS(D${row}/E${row}-1)<=${agreement}`;
  return `IF(COUNT(D${row}:E${row})<2,"incomplete",IF(${same},"confirms","differs"))`;
}
