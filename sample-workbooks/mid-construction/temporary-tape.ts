import { writeColumnHeads, writeHeading } from "../blocks/heading";
import type { Sheet } from "../blocks/sheet";
import { decimals, looks, native, palette } from "../blocks/style";
import { onSheet } from "../blocks/address";
import { leakTable, sheets } from "./layout";

/** What a step does to the tape on a leak; the others leave it as it is. */
const tapeKinds = ["temporary", "lasting", "tape off"] as const;

/** Rows of the steps; the row below the last one is blank. */
interface Steps {
  readonly start: number;
  readonly end: number;
}

/** Where the sheet keeps what follows from the tape that is on; cells of one step by its row. */
export interface TapePlaces {
  /** Temporary tapes that are on after the step. */
  readonly tapesOn: (row: number) => string;
  /** Flow at 50 Pa and its standard uncertainty where no temporary tape is on and the kind is known. */
  readonly flow: string;
  readonly uncertainty: string;
  /** The last of these. */
  readonly lastFlow: string;
  readonly lastUncertainty: string;
  readonly lastStep: string;
  /** Names of the temporary tapes that are still on; blank where there is none. */
  readonly stillOn: string;
  /** Readings whose kind is not given: they count for nothing. */
  readonly withoutKind: string;
}

/** The number furthest down; #N/A where one of the cells is an error: the number above it belongs to another state of the house. */
export function lastNumber(cells: string): string {
  return `IF(ISERROR(SUM(${cells})),NA(),IFERROR(LOOKUP(9E+99,${cells}),""))`;
}

/**
 * Which temporary tape is on after each step, and the flow that counts: beside the printed pages. A tape belongs to its leak's number; it is on until a
 * later step of that leak takes it off or makes it lasting. Without a number nothing takes it off.
 */
export function writeTapeColumns(sheet: Sheet, { start, end }: Steps): TapePlaces {
  writeHeading(sheet, start - 3, ["AP", "AU"], "Temporary tape, step by step (not printed)");
  writeColumnHeads(sheet, start - 1, "AP", [
    "was on,|this leak",
    "tapes on|after it",
    "q50|that counts",
    "std. unc.|that counts",
    "step|that counts",
    "<still on|at the end",
  ]);
  const changes = (kind: string) => tapeKinds.map((word) => `(${kind}="${word}")`).join("+");
  for (let row = start; row <= end; row++) {
    const above = (letter: string) => `$${letter}$${start}:$${letter}${row - 1}`;
    const below = (letter: string) => `$${letter}${row + 1}:$${letter}$${end + 1}`;
    const lastChange = `SUMPRODUCT(MAX((${above("D")}=D${row})*(${changes(above("E"))})*(ROW(${above("D")})-${start - 1})))`;
    const wasOn = `IF(D${row}="",0,IF(${lastChange}=0,0,IF(INDEX(${above("E")},${lastChange})="temporary",1,0)))`;
    // A leak's number typed as text would match no other one, and its tape would stay on.
    const known = row === start ? "0" : wasOn;
    sheet.formula(`AP${row}`, `IF(ISTEXT(D${row}),NA(),${known})`, native(decimals(0)));
    const before = row === start ? "0" : `AQ${row - 1}`;
    sheet.formula(
      `AQ${row}`,
      `${before}+IF(E${row}="temporary",1,0)-IF(${changes(`E${row}`)}>0,AP${row},0)`,
      native(decimals(0)),
    );
    const counting = (value: string) => `IF(OR(AQ${row}>0,E${row}=""),"",${value})`;
    sheet.formula(`AR${row}`, counting(`J${row}`), native(decimals(1)));
    sheet.formula(`AS${row}`, counting(`P${row}`), native(decimals(1)));
    sheet.formula(`AT${row}`, `IF(ISNUMBER(AR${row}),B${row},"")`, native(decimals(0)));
    const changedLater = `SUMPRODUCT((${below("D")}=D${row})*(${changes(below("E"))}))`;
    const place = `IFERROR(INDEX(${leakTable}[place],MATCH(D${row},${leakTable}[no],0))&"",C${row}&"")`;
    const name = `IF(D${row}="",C${row}&" (step "&B${row}&", leak number missing)",${place}&" (leak "&D${row}&", step "&B${row}&")")`;
    const goes = `IF(D${row}="",0,${changedLater})`;
    sheet.formula(`AU${row}`, `IF(E${row}<>"temporary","",IF(${goes}>0,"",${name}))`, looks.label);
  }
  const column = (letter: string) => `${letter}${start}:${letter}${end}`;
  const foot = end + 1;
  sheet.formula(`AR${foot}`, lastNumber(column("AR")), native(decimals(1)));
  sheet.formula(`AS${foot}`, lastNumber(column("AS")), native(decimals(1)));
  sheet.formula(`AT${foot}`, lastNumber(column("AT")), native(decimals(0)));
  sheet.formula(`AU${foot}`, `_xlfn.TEXTJOIN("; ",TRUE,${column("AU")})`, looks.label);
  sheet.put(`AT${foot + 1}`, "no kind", looks.label);
  sheet.formula(`AU${foot + 1}`, `SUMPRODUCT((${column("E")}="")*(${column("H")}<>""))`, native(decimals(0), "left"));
  sheet.when(`B${start}:P${end}`, `$AQ${start}>0`, { font: { color: { rgb: palette.copper } } });
  return {
    tapesOn: (row) => `AQ${row}`,
    flow: column("AR"),
    uncertainty: column("AS"),
    lastFlow: `AR${foot}`,
    lastUncertainty: `AS${foot}`,
    lastStep: `AT${foot}`,
    stillOn: `AU${foot}`,
    withoutKind: `AU${foot + 1}`,
  };
}

/** Columns beside the steps in which the leak register finds what the tape on a leak won. */
const wonColumns = { gain: "AW", halfWidth: "AX" } as const;

/**
 * What each step won, and half the width of the triangle that has its standard uncertainty, √6·u, so that a forecast counts it in full. The gains page
 * has the same from the add-in with limits at 95 %; here without a call, which would be the fourth one in a row behind a forecast.
 */
export function writeWonColumns(sheet: Sheet, { start, end }: Steps, gainRow: (row: number) => number): void {
  const { gain, halfWidth } = wonColumns;
  writeHeading(sheet, start - 3, [gain, halfWidth], "For the register (not printed)");
  writeColumnHeads(sheet, start - 1, gain, ["won|m³/h", "give or take|m³/h"]);
  for (let row = start + 1; row <= end; row++) {
    const at = gainRow(row);
    const [before, after] = [`T${at}`, `U${at}`];
    sheet.formula(`${gain}${row}`, `IF(OR(${before}="",${after}=""),"",${before}-${after})`, native(decimals(1)));
    const own = (flow: string, u: string) => `${u}^2-(DeviceUncertainty*${flow})^2`;
    const variance = `${own(before, `V${at}`)}+${own(after, `W${at}`)}+(DeviceUncertainty*${gain}${row})^2`;
    const known = `OR(${gain}${row}="",V${at}="",W${at}="",DeviceUncertainty="")`;
    sheet.formula(`${halfWidth}${row}`, `IF(${known},"",SQRT(6*(${variance})))`, native(decimals(1)));
  }
}

/** The steps of the series as the register reads them, the state as found included: leak, kind, flow shown, gain, half the width. */
export function stepRanges({ start, end }: Steps) {
  const range = (letter: string) => onSheet(sheets.series, `${letter}${start}:${letter}${end}`);
  return {
    leak: range("D"),
    kind: range("E"),
    shown: range("H"),
    gain: range(wonColumns.gain),
    halfWidth: range(wonColumns.halfWidth),
  } as const;
}
