import { call, keepBlanks, quoted } from "../blocks/add-in";
import { onSheet } from "../blocks/address";
import { columnHeads } from "../blocks/heading";
import { guardedCell, placeIn, wholeTestSymbols } from "../blocks/result-tables";
import type { Sheet } from "../blocks/sheet";
import { decimals, fromAddIn, looks, native, style } from "../blocks/style";
import { sheets } from "./places";

/** Cells of one run's results. */
export interface RunPlaces {
  readonly q50: string;
  /** Standard uncertainty, calibration included. */
  readonly uncertainty: string;
  /** Effective degrees of freedom of that uncertainty: those of the scatter are few, all else is taken as known for sure. */
  readonly freedom: string;
  /** "met", "not met", "open" where readings give no result; blank without readings. */
  readonly conditions: string;
}

const shown: readonly (readonly [symbol: string, digits: number])[] = [
  ["q50", 1],
  ["n50", 3],
  ["n", 3],
  ["s_n", 4],
  ["r2", 4],
  ["t", 3],
  ["count", 0],
  ["dp_min", 1],
  ["dp_max", 1],
];

/** The rows of the whole test that are needed here, in one call; then uncertainty and conditions. */
export function runResults(
  sheet: Sheet,
  { first, last }: { readonly first: number; readonly last: number },
  [pressure, flow]: readonly [string, string],
  left: "H" | "M",
  settings: string,
  barometer: string,
  isFilled: boolean,
): RunPlaces {
  const [value, lower, upper] = left === "H" ? (["I", "J", "K"] as const) : (["N", "O", "P"] as const);
  columnHeads(sheet, first - 1, left, ["<symbol", "value", "lower", "upper"]);
  const whole = call(
    "TESTRESULT",
    quoted("depressurization"),
    `${pressure}${first}:${pressure}${last}`,
    `${flow}${first}:${flow}${last}`,
    keepBlanks(`${pressure}${last + 1}`),
    keepBlanks(`${pressure}${last + 2}`),
    settings,
  );
  const rows = shown.map(([symbol]) => placeIn(wholeTestSymbols, symbol) + 1).join(";");
  const look = (row: number, column: number) =>
    column === 0
      ? fromAddIn(undefined, "left")
      : style({ bold: row === 0 && column === 1 }, fromAddIn(decimals(shown[row]?.[1] ?? 1)));
  const block = `${left}${first}:${upper}${first + shown.length - 1}`;
  // An empty run gives a single blank; once it is filled in, the result spills over the block.
  sheet.addIn(
    isFilled ? block : `${left}${first}`,
    `IF(COUNTA(${pressure}${first}:${flow}${last})=0,"",INDEX(${whole},{${rows}},{2,3,4,5}))`,
    look,
  );
  sheet.paint(block, look(1, 2));
  /** A value whose row bears its symbol; blank otherwise. */
  const found = (symbol: string, letter: string = value) => {
    const row = first + shown.findIndex(([one]) => one === symbol);
    return `IFERROR(${guardedCell(symbol, `${left}${row}`, `${letter}${row}`)},"")`;
  };
  const [q50, n, t] = [found("q50"), found("n"), found("t")];
  const fit = `LN(${found("q50", upper)}/${found("q50", lower)})/2/${t}`;
  const parts = `SQRT((${fit})^2+(GaugeUncertainty*${n})^2+RepeatUncertainty^2+DeviceUncertainty^2)`;
  const known = `COUNT(${q50},${found("q50", lower)},${found("q50", upper)},${n},${t},GaugeUncertainty,RepeatUncertainty,DeviceUncertainty)=8`;
  const [uncertainty, conditions] = [first + shown.length, first + shown.length + 1];
  sheet
    .put(`${left}${uncertainty}`, "u(q50)", looks.label)
    .paint(`${lower}${conditions}:${upper}${conditions}`, looks.label);
  sheet.formula(`${value}${uncertainty}`, `IF(${known},${q50}*${parts},"")`, native(decimals(1)));
  sheet.put(`${lower}${uncertainty}`, "degrees", looks.label);
  const freedom = `IF(${fit}=0,"",(${found("count")}-2)*(${parts}/(${fit}))^4)`;
  sheet.formula(`${upper}${uncertainty}`, `IF(${known},${freedom},"")`, native(decimals(0)));
  sheet.put(`${left}${conditions}`, "conditions", looks.label);
  const baseline = `MAX(ABS(N(${pressure}${last + 1})),ABS(N(${pressure}${last + 2})))`;
  const met = [
    `${found("count")}>=5`,
    `${found("dp_min")}>=10`,
    `${found("dp_max")}>=50`,
    `${n}>=0.5`,
    `${n}<=1`,
    `${found("r2")}>=0.98`,
    `${baseline}<=5`,
    `5*${baseline}<=${found("dp_min")}*1.000000001`,
  ].join(",");
  // Without the barometer or the density of the certificate the test would go by an assumption.
  const judged = `IF(COUNT(${q50},${barometer},CalibrationDensity)<3,"open",IF(AND(${met}),"met","not met"))`;
  sheet.formula(`${value}${conditions}`, `IF(COUNTA(${pressure}${first}:${flow}${last})=0,"",${judged})`, native());
  const place = (row: number, letter: string = value) => onSheet(sheets.runs, `${letter}${row}`);
  return {
    q50: place(first),
    uncertainty: place(uncertainty),
    freedom: place(uncertainty, upper),
    conditions: place(conditions),
  };
}
