import { call, keepBlanks, quoted } from "../blocks/add-in";
import { onSheet } from "../blocks/address";
import { letterhead, writeColumnHeads, writeHeading, writePageHead } from "../blocks/heading";
import { guardedCell, placeIn, wholeTestSymbols } from "../blocks/result-tables";
import { type Page, Sheet } from "../blocks/sheet";
import { decimals, fromAddIn, input, looks, native, palette, shortDay, style } from "../blocks/style";
import { between, day, fromList, validateTemperatures } from "../blocks/validation";
import { footer, sheets, testedCount } from "./layout";
import { type Run, testedUnits } from "./scenario";

const top = 5;
const perPage = 2;

/** Where the results of the units that were tested are found, in the order of their blocks. */
export interface TestedPlaces {
  readonly name: string;
  readonly unguarded: RunPlaces;
  readonly guarded: RunPlaces;
}

/** A block for each tested unit: the run without guarding fans, and the run with the neighbours held at the same pressure. */
export function runsPage(): Page & { readonly tested: readonly TestedPlaces[] } {
  const widths = [1.5, 12, 12, 12, 12, 12, 2.5, 10, 11, 10, 10, 2.5, 10, 11, 10, 10, 3, 20, 22];
  const row = (index: number) => top + index * blockHeight;
  const pages = Math.ceil(testedCount / perPage);
  const areas = Array.from(
    { length: pages },
    (_, page) => `B${page === 0 ? 1 : row(page * perPage)}:P${row((page + 1) * perPage) - 1}`,
  );
  const sheet = new Sheet(sheets.runs, widths, palette.copper, {
    orientation: "landscape",
    areas,
    titleRows: "1:4",
    footer,
  });
  const lead =
    "Depressurization. Unguarded: neighbours as they are. Guarded: fans hold the neighbours at the same pressure, so that only leaks to outdoors count. Pressures below zero.";
  writePageHead(sheet, letterhead, ["B", "P"], sheets.runs, lead);
  sheet.heightOf(13, top, row(testedCount));
  const tested = Array.from({ length: testedCount }, (_, index) => writeUnitBlock(sheet, row(index), index));
  const names = tested.map(({ name }) => name);
  return {
    sheet,
    names: {},
    tested: tested.map((block, index) => ({ ...block, name: onSheet(sheets.runs, names[index]!) })),
  };
}

const readingCount = 8;

/** Rows that a block takes, the blank one after it included. */
const blockHeight = 18;

/** Pressures and flows of a block, by its place. */
export function readingCells(index: number): string {
  const first = top + index * blockHeight + 5;
  return `C${first}:F${first + readingCount - 1}`;
}

/** One tested unit: conditions, readings of both runs, results of both. */
function writeUnitBlock(
  sheet: Sheet,
  at: number,
  index: number,
): { readonly name: string; readonly unguarded: RunPlaces; readonly guarded: RunPlaces } {
  const given = testedUnits[index];
  const readings = { first: at + 5, last: at + 4 + readingCount };
  writeHeading(sheet, at, ["B", "P"], `Tested unit ${index + 1}`);
  writeColumnHeads(sheet, at + 1, "B", ["<unit", "<day", "indoors, °C", "outdoors, °C", "barometer, Pa"]);
  const facts = at + 2;
  sheet.put(`B${facts}`, given?.unit ?? null, style({ bold: true }, input(undefined, "left")));
  sheet.put(`C${facts}`, given?.day ?? null, input(shortDay, "left"));
  sheet.type(`D${facts}`, given?.indoors ?? null, decimals(1)).type(`E${facts}`, given?.outdoors ?? null, decimals(1));
  sheet.type(`F${facts}`, given?.barometer ?? null, decimals(0));
  writeColumnHeads(sheet, at + 4, "B", [
    "<no.",
    "unguarded|pressure, Pa",
    "flow shown|m³/h",
    "guarded|pressure, Pa",
    "flow shown|m³/h",
  ]);
  writeTypedRun(sheet, readings.first, ["C", "D"], given?.unguarded);
  writeTypedRun(sheet, readings.first, ["E", "F"], given?.guarded);
  for (let row = readings.first; row <= readings.last; row++)
    sheet.put(`B${row}`, row - readings.first + 1, style({ align: "left" }, looks.label));
  sheet
    .put(`B${readings.last + 1}`, "baseline before", looks.label)
    .put(`B${readings.last + 2}`, "baseline after", looks.label);
  const settings = writeRunSettings(sheet, at);
  addRules(sheet, at, readings);
  const run = (title: string, typed: readonly [string, string], left: "H" | "M", isFilled: boolean) => {
    sheet.put(`${left}${at + 1}`, title, looks.group);
    sheet.put(
      `${left}${at + 2}`,
      "q50, u(q50) in m³/h; n50 in 1/h; pressures in Pa",
      style({ size: 8, colour: palette.grey }),
    );
    return writeRunResults(sheet, readings, typed, left, settings, `F${facts}`, isFilled);
  };
  return {
    name: `B${facts}`,
    unguarded: run("Unguarded", ["C", "D"], "H", given !== undefined),
    guarded: run("Guarded", ["E", "F"], "M", given?.guarded !== undefined),
  };
}

function writeTypedRun(
  sheet: Sheet,
  first: number,
  [pressure, flow]: readonly [string, string],
  run: Run | undefined,
): void {
  for (let index = 0; index < readingCount; index++) {
    const [read, shows] = run?.readings[index] ?? [];
    sheet.type(`${pressure}${first + index}`, read ?? null, decimals(1));
    sheet.type(`${flow}${first + index}`, shows ?? null, decimals(0));
  }
  sheet.type(`${pressure}${first + readingCount}`, run?.before ?? null, decimals(1));
  sheet.type(`${pressure}${first + readingCount + 1}`, run?.after ?? null, decimals(1));
}

/** Label and value beside the printed page, as the whole test wants them. */
function writeRunSettings(sheet: Sheet, at: number): string {
  const facts = at + 2;
  const size = (range: string) => {
    const found = `INDEX(${range},MATCH($B$${facts},UnitNames,0))`;
    return `IF($B$${facts}="","",IFERROR(IF(${found}="","",${found}),""))`;
  };
  const lines: readonly (readonly [label: string, formula: string, format?: string])[] = [
    ["volume", size("UnitVolumes"), decimals(1)],
    ["envelope area", size("UnitEnvelopeAreas"), decimals(1)],
    ["floor area", size("UnitFloorAreas"), decimals(1)],
    ["indoor temperature", keepBlanks(`D${facts}`), decimals(1)],
    ["outdoor temperature", keepBlanks(`E${facts}`), decimals(1)],
    ["barometric pressure", keepBlanks(`F${facts}`), decimals(0)],
    ["flow basis", quoted("indicated at calibration density")],
    ["calibration density", keepBlanks("CalibrationDensity"), decimals(4)],
    ["standard", quoted("ISO 9972")],
  ];
  sheet.put(`R${at + 1}`, "Settings (not printed)", looks.group);
  lines.forEach(([label, formula, format], index) => {
    sheet.put(`R${facts + index}`, label, looks.label);
    sheet.formula(`S${facts + index}`, formula, style({ shrink: true }, native(format, "left")));
  });
  return `$R$${facts}:$S$${facts + lines.length - 1}`;
}

function addRules(sheet: Sheet, at: number, { first, last }: { readonly first: number; readonly last: number }): void {
  validateTemperatures(sheet, { indoors: `D${at + 2}`, outdoors: `E${at + 2}` });
  sheet.validate(
    fromList(`B${at + 2}`, "UnitNames", "Unit", "From the sheet Units; each unit once."),
    day(`C${at + 2}`, "Day", "The day of both runs."),
    between(
      `F${at + 2}`,
      50000,
      110000,
      "Barometric pressure, Pa",
      "At the building, in Pa: 1013.25 hPa is 101 325 Pa.",
    ),
    between(`C${first}:C${last}`, -100, -5, "Pressure, Pa", "As read while depressurizing, below zero."),
    between(`E${first}:E${last}`, -100, -5, "Pressure, Pa", "As read while depressurizing, below zero."),
    between(`D${first}:D${last}`, 1, 100000, "Flow shown, m³/h", "As the gauge shows it, at calibration density."),
    between(`F${first}:F${last}`, 1, 100000, "Flow shown, m³/h", "As the gauge shows it, at calibration density."),
    between(
      `C${last + 1}:C${last + 2}`,
      -30,
      30,
      "Baseline, Pa",
      "Mean over at least 30 s, fan off and covered; 0 is a value.",
    ),
    between(
      `E${last + 1}:E${last + 2}`,
      -30,
      30,
      "Baseline, Pa",
      "Mean over at least 30 s, guarding fans off too; 0 is a value.",
    ),
  );
}

/** Cells of one run's results. */
interface RunPlaces {
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
function writeRunResults(
  sheet: Sheet,
  { first, last }: { readonly first: number; readonly last: number },
  [pressure, flow]: readonly [string, string],
  left: "H" | "M",
  settings: string,
  barometer: string,
  isFilled: boolean,
): RunPlaces {
  const [value, lower, upper] = left === "H" ? (["I", "J", "K"] as const) : (["N", "O", "P"] as const);
  writeColumnHeads(sheet, first - 1, left, ["<symbol", "value", "lower", "upper"]);
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
