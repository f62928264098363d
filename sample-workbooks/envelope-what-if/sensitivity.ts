import { onSheet } from "../blocks/address";
import { barChart } from "../blocks/chart";
import { letterhead, writeColumnHeads, writeHeading, writePageHead } from "../blocks/heading";
import { type Page, Sheet } from "../blocks/sheet";
import { decimals, input, looks, native, palette, style } from "../blocks/style";
import { between } from "../blocks/validation";
import { componentFlows } from "./component-flows";
import { chosen, footer, sheets, variantColumns } from "./layout";
import { ofLimit } from "./limits";

const rows = { known: 6, rate: 7, share: 8, heads: 12 } as const;
const first = rows.heads + 1;

/** What the effects are reckoned from, beside the page. */
const given = { label: "L", value: "M", first: 6 } as const;
const givenLines = {
  quantity: chosen("Variant", variantColumns.quantity),
  pressure: chosen("Variant", variantColumns.pressure),
  convention: ofLimit("convention", chosen("Variant", variantColumns.criterion)),
  whole: chosen("Variant", variantColumns.wholeVolume),
  volume: chosen("Variant", variantColumns.volume),
  envelope: chosen("Variant", variantColumns.envelopeArea),
  floor: chosen("Variant", variantColumns.floorArea),
  walls: chosen("Variant", variantColumns.wallLength),
  partitions: chosen("Variant", variantColumns.partitions),
  height: chosen("Variant", variantColumns.meanHeight),
} as const;
type Given = keyof typeof givenLines;
const at = (name: Given) => `$${given.value}$${given.first + Object.keys(givenLines).indexOf(name)}`;

const known = `$C$${rows.known}`;
const share = `$C$${rows.share}`;

/** What a step does: three factors, each a formula of the step with its sign; 1 where nothing is said. */
interface Effect {
  /** On the flow of the known components. */
  readonly known?: (step: string) => string;
  /** On the volume that the air change rate divides by. */
  readonly volume?: (step: string) => string;
  /** On the flow that the limit allows. */
  readonly allowed?: (step: string) => string;
}

interface Assumption extends Effect {
  readonly label: string;
  /** As it is now, where one number says it. */
  readonly now?: string;
  readonly format?: string;
  readonly unit?: string;
  readonly step: number;
  readonly stepUnit: "" | "%" | "points" | "m";
}

const isRate = `${at("quantity")}="air change rate"`;
const isByRoom = `${at("convention")}="room by room"`;

/** The flow through the components of a unit or a kind grows by a share. */
const part = (column: string, word: string) => (step: string) =>
  `1+${step}/100*SUMPRODUCT((${column}="${word}")*1,${componentFlows.flow})/${known}`;

const netVolume = (step: string) =>
  `IF(${isByRoom},(100-MAX(0,MIN(40,${at("partitions")}+${step})))/(100-${at("partitions")}),1)`;
const higherVolume = (step: string) => `1+${step}*${at("floor")}/${at("whole")}`;
const higherEnvelope = (step: string) => `1+${step}*${at("walls")}/${at("envelope")}`;

const assumptions: readonly Assumption[] = [
  {
    label: "Exponent n of leaks (limit not at 50 Pa)",
    now: "Exponent",
    format: decimals(2),
    step: 0.05,
    stepUnit: "",
    allowed: (step) => `(50/${at("pressure")})^(${step})`,
  },
  {
    label: "Exponents n of the components",
    step: 0.05,
    stepUnit: "",
    known: (step) => `SUMPRODUCT(${componentFlows.flow},(50/${componentFlows.pressure})^(${step}))/${known}`,
  },
  {
    label: "Share of partitions and floors",
    now: at("partitions"),
    format: decimals(0),
    unit: "%",
    step: 3,
    stepUnit: "points",
    volume: netVolume,
    allowed: (step) => `IF(${isRate},${netVolume(step)},1)`,
  },
  {
    label: "Storey height",
    now: at("height"),
    format: decimals(2),
    unit: "m",
    step: 0.1,
    stepUnit: "m",
    volume: higherVolume,
    allowed: (step) =>
      `IF(${isRate},${higherVolume(step)},IF(${at("quantity")}="per floor area",1,${higherEnvelope(step)}))`,
  },
  {
    label: "Volume or area that the limit counts",
    step: 2,
    stepUnit: "%",
    volume: (step) => `IF(${isRate},1+${step}/100,1)`,
    allowed: (step) => `1+${step}/100`,
  },
  { label: "Amounts in m²", step: 10, stepUnit: "%", known: part(componentFlows.unit, "m²") },
  { label: "Amounts in m", step: 10, stepUnit: "%", known: part(componentFlows.unit, "m") },
  { label: "Amounts by the piece", step: 20, stepUnit: "%", known: part(componentFlows.unit, "piece") },
  {
    label: "Leakage given as flow (windows, doors)",
    step: 30,
    stepUnit: "%",
    known: part(componentFlows.kind, "flow"),
  },
  {
    label: "Leakage given as area (joints, hatches)",
    step: 50,
    stepUnit: "%",
    known: part(componentFlows.kind, "leakage area, 4 Pa"),
  },
  {
    label: "Leakage given as hole (pipes, cables)",
    step: 50,
    stepUnit: "%",
    known: part(componentFlows.kind, "hole, 50 Pa"),
  },
];

const last = first + assumptions.length - 1;
const wordsAt = last + 1;
const noteAt = wordsAt + 1;
const chartAt = noteAt + 3;
const end = chartAt + 23;

/** How far each assumption, one step up and one step down, moves the share of the allowed flow that the known components take. */
export function sensitivityPage(): Page {
  const sheet = new Sheet(
    sheets.sensitivity,
    [1.5, 34, 9, 4.5, 7.5, 7, 8.5, 8.5, 8, 8, 2, 21, 12, 10, 10, 2, 10, 10, 2, 10, 10, 2, 9, 6, 2, 36, 10, 10],
    palette.copper,
    { orientation: "portrait", areas: [`B1:J${end}`], pages: 1, footer },
  );
  const lead = "Which assumption decides: each goes one step down and one step up, all others stay.";
  writePageHead(sheet, letterhead, ["B", "J"], "Sensitivity", lead);
  sheet.heightOf(14, 5, end).height(25, wordsAt).height(36, noteAt);
  writeVariantAsItIs(sheet);
  writeGiven(sheet);
  writeTable(sheet);
  writeSorted(sheet);
  return { sheet, names: {} };
}

function writeVariantAsItIs(sheet: Sheet): void {
  writeHeading(sheet, rows.known - 1, ["B", "J"], "The variant as it is");
  const ratio = (divisor: string) => `IF(COUNT(${known},${divisor})<2,"",${known}/${divisor})`;
  const number = (value: string) => `IFERROR(IF(ISNUMBER(${value}),${value},""),"")`;
  const lines = [
    ["Known components at 50 Pa", number(chosen("Variant", variantColumns.known)), "m³/h", decimals(1)],
    ["n_{50} of the known components alone", ratio(at("volume")), "1/h", decimals(3)],
    ["Their share of the allowed flow", ratio(chosen("Variant", variantColumns.flow)), "", "0.0 %"],
  ] as const;
  lines.forEach(([label, formula, unit, format], index) => {
    const row = rows.known + index;
    sheet.rich(`B${row}`, label, looks.label).formula(`C${row}`, formula, native(format));
    sheet.put(`D${row}`, unit || null, looks.unit).paint(`E${row}:J${row}`, looks.label);
  });
  sheet.formula(`F${rows.known}`, 'IF(VariantIndex="","no variant chosen",VariantName)', looks.strong);
  sheet.merge(`F${rows.known}:J${rows.known}`);
}

function writeGiven(sheet: Sheet): void {
  writeHeading(sheet, given.first - 1, [given.label, given.value], "Of the variant (not printed)");
  Object.entries(givenLines).forEach(([name, formula], index) => {
    const row = given.first + index;
    sheet.put(`${given.label}${row}`, name, looks.label);
    sheet.formula(`${given.value}${row}`, formula, native("0.0##", "left"));
  });
}

/** Down and up: the sign of the step, the columns of its three factors, of the air change rate and of the share. */
const directions = [
  { sign: -1, known: "O", volume: "R", allowed: "U", rate: "G", share: "I" },
  { sign: 1, known: "P", volume: "S", allowed: "V", rate: "H", share: "J" },
] as const;

function writeTable(sheet: Sheet): void {
  writeHeading(sheet, rows.heads - 2, ["B", "J"], "Each assumption one step down and one step up");
  writeColumnHeads(sheet, rows.heads, "B", [
    "<assumption",
    "now",
    "<<",
    "step ±",
    "<<",
    "n50, 1/h|down",
    "1/h|up",
    "share|down",
    "share|up",
  ]);
  writeHeading(sheet, rows.heads - 2, ["O", "V"], "Factors: step down, step up (not printed)");
  for (const direction of directions)
    for (const quantity of ["known", "volume", "allowed"] as const) {
      sheet.put(`${direction[quantity]}${rows.heads - 1}`, quantity, looks.columnHead);
      sheet.put(`${direction[quantity]}${rows.heads}`, direction.sign, looks.columnHead);
    }
  assumptions.forEach((assumption, index) => {
    const row = first + index;
    const { label, now, format, unit, step, stepUnit } = assumption;
    sheet.put(`B${row}`, label, looks.label);
    if (now === undefined) sheet.paint(`C${row}`, looks.label);
    else sheet.formula(`C${row}`, `IF(${now}="","",${now})`, native(format));
    sheet.put(`D${row}`, unit ?? null, looks.unit);
    sheet.put(`E${row}`, step, input("0.0#")).put(`F${row}`, stepUnit || null, looks.unit);
    const isKnown = `COUNT(${known},${share},$E${row}${now === undefined ? "" : `,$C${row}`})=${now === undefined ? 3 : 4}`;
    for (const direction of directions) {
      for (const quantity of ["known", "volume", "allowed"] as const) {
        const factor = assumption[quantity]?.(`${direction[quantity]}$${rows.heads}*$E${row}`) ?? "1";
        sheet.formula(`${direction[quantity]}${row}`, `IF(${isKnown},${factor},"")`, native("0.0000"));
      }
      const [ofKnown, ofVolume, ofAllowed] = (["known", "volume", "allowed"] as const).map(
        (quantity) => `${direction[quantity]}${row}`,
      ) as [string, string, string];
      const moved = (now: string, over: string) => `IF(${ofKnown}="","",${now}*${ofKnown}/${over})`;
      sheet.formula(`${direction.rate}${row}`, moved(`$C$${rows.rate}`, ofVolume), native(decimals(3)));
      sheet.formula(`${direction.share}${row}`, moved(share, ofAllowed), native("0.0 %"));
    }
  });
  sheet.keep(`E${first}:E${last}`);
  sheet.validate(
    between(
      `E${first}:E${last}`,
      0,
      90,
      "Step",
      "How far this assumption may be off either way, in the unit beside it.",
    ),
  );
  sheet
    .put(
      `B${noteAt}`,
      "Type your own steps: common practice, no source. Leaks that nobody has drawn add to both columns. Shares move with the allowed flow, too: " +
        "a larger volume allows more. Components of a kind move together, as one table or one maker’s figure would move them.",
      looks.note,
    )
    .merge(`B${noteAt}:J${noteAt}`);
}

const sortedAt = { spread: "X", rank: "Y", name: "AA", down: "AB", up: "AC" } as const;

/** The assumptions by the size of what they move, for the chart and for the sentence. */
function writeSorted(sheet: Sheet): void {
  const { spread, rank, name, down, up } = sortedAt;
  const column = (letter: string) => `$${letter}$${first}:$${letter}$${last}`;
  writeHeading(sheet, rows.heads - 2, [spread, rank], "Order");
  writeColumnHeads(sheet, rows.heads, spread, ["moves by", "rank"]);
  writeHeading(sheet, rows.heads - 2, [name, up], "Sorted, in points (not printed)");
  writeColumnHeads(sheet, rows.heads, name, ["<assumption", "down", "up"]);
  for (let row = first; row <= last; row++) {
    const moves = `MAX(ABS(I${row}-${share}),ABS(J${row}-${share}))`;
    sheet.formula(`${spread}${row}`, `IF(COUNT(I${row},J${row})<2,"",${moves})`, native("0.000"));
    const own = `${spread}${row}`;
    const larger = `SUMPRODUCT((${column(spread)}<>"")*(${column(spread)}>${own}))`;
    const asLargeAbove = row === first ? "0" : `SUMPRODUCT(($${spread}$${first}:${spread}${row - 1}=${own})*1)`;
    sheet.formula(`${rank}${row}`, `IF(${own}="","",1+${larger}+${asLargeAbove})`, native(decimals(0)));
    const place = `MATCH(${row - first + 1},${column(rank)},0)`;
    const found = (letter: string) => `INDEX(${column(letter)},${place})`;
    sheet.formula(`${name}${row}`, `IFERROR(${found("B")},"")`, native(undefined, "left"));
    for (const [letter, from] of [
      [down, "I"],
      [up, "J"],
    ] as const)
      sheet.formula(`${letter}${row}`, `IFERROR(100*(${found(from)}-${share}),"")`, native(decimals(1)));
  }
  const percent = (value: string) => `ROUND(100*${value},0)&" %"`;
  const ends = `${percent(`(${share}+${down}${first}/100)`)}&" one step down, "&${percent(`(${share}+${up}${first}/100)`)}&" one step up"`;
  const sentence = `"“"&${name}${first}&"” moves the share most: "&${percent(share)}&" as it is, "&${ends}&"."&IF(VariantCaution="",""," "&VariantCaution)`;
  sheet
    .formula(`B${wordsAt}`, `IF(${name}${first}="","",${sentence})`, style({ bold: true, wrap: true }))
    .merge(`B${wordsAt}:J${wordsAt}`);
  writeHeading(sheet, chartAt - 1, ["B", "J"], "Share of the allowed flow: moved by so many points, largest first");
  const values = (letter: string) => onSheet(sheets.sensitivity, `${letter}${first}:${letter}${last}`);
  const bars = [
    { name: "one step down", values: values(down), colour: palette.petrol },
    { name: "one step up", values: values(up), colour: palette.inputEdge },
  ];
  const anchor = { from: { row: chartAt - 1, col: 1 }, to: { row: end, col: 10 } };
  sheet.chart(
    barChart("lying", values(name), bars, anchor, {
      axisTitle: "points of the share of the allowed flow",
      alternative:
        "Bars for each assumption, largest first: by how many points one step down and one step up move the share of the allowed flow.",
      textSize: 9,
      format: decimals(0),
      signed: true,
      overlaid: true,
    }),
  );
}
