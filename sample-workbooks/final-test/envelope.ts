import { call, keepBlanks } from "../blocks/add-in";
import { absolute, onSheet } from "../blocks/address";
import { writeColumnHeads, writeHeading } from "../blocks/heading";
import type { Sheet } from "../blocks/sheet";
import { decimals, fromAddIn, looks, native, palette, style } from "../blocks/style";
import { wholeSum } from "../blocks/typed-cells";
import { between, text } from "../blocks/validation";
import { sheets } from "./layout";
import type { Scenario } from "./scenario";

/** Cells of one storey: the corners as typed, area inside the outline, perimeter, share that the rooms fill. */
interface OutlinePlaces {
  readonly typed: string;
  readonly plan: string;
  readonly around: string;
  readonly filled: string;
  /** Whether the add-in finds the same area, in a word. */
  readonly compared: string;
}

/** The row of the section's heading on the sheet Rooms. */
export const envelopeAt = 36;

/** Rows for parts that no outline gives: a floor over a passage, a dormer, a lift of the roof. */
const furtherRows = 4;

/** Rows from the heading to the sum. */
export const envelopeAreaRows = 2 + 5 + furtherRows + 1;

/** Outlines of the storeys by their corners, and the envelope area that follows from them. A storey without corners is skipped. */
export function writeEnvelope(sheet: Sheet, rooms: RoomRows, form: Scenario): Record<string, string> {
  const at = envelopeAt;
  const side = `side, ${form.units.length}`;
  writeHeading(
    sheet,
    at,
    ["B", "H"],
    "Outlines, corner after corner; a storey that the house does not have stays blank",
  );
  writeColumnHeads(sheet, at + 1, "B", ["<corner", "ground, x", "y", side, "upper, x", "y", side]);
  writeColumnHeads(sheet, at + 1 + tableRows, "B", ["<corner", "top, x", "y", side]);
  const places = storeys.map((storey) => writeOutline(sheet, cornersFirst + storey.down, storey, rooms, form));
  const share = at + 2 + 2 * tableRows - 2;
  sheet.put(`B${share}`, "Check: share that the rooms fill, smallest and largest", looks.label);
  const shares = places.map(({ filled }) => filled).join(",");
  // Without an outline there is no share: blank like the floor while nothing is typed, an error from then on.
  const floor = `H${share + 5}`;
  const none = `IF(${floor}="","",NA())`;
  for (const [letter, pick] of [
    ["G", "MIN"],
    ["H", "MAX"],
  ] as const)
    sheet.formula(`${letter}${share}`, `IF(COUNT(${shares})=0,${none},${pick}(${shares}))`, native("0.0 %"));
  sheet.paint(`B${share}:H${share}`, looks.label);
  const compared = share + 1;
  sheet.put(`B${compared}`, "Check: areas inside the outlines, once more by the add-in", looks.label);
  const words = places.map(({ compared: word }) => word);
  const any = (word: string) => `OR(${words.map((cell) => `IFERROR(${cell}="${word}",TRUE)`).join(",")})`;
  sheet.formula(`H${compared}`, `IF(${any("differs")},"differs",IF(${any("agrees")},"agree",""))`, native());
  sheet.paint(`B${compared}:H${compared}`, looks.label);
  return {
    ...writeEnvelopeArea(sheet, share + 3, places, rooms, form),
    OutlinesAgree: onSheet(sheets.rooms, `H${compared}`),
    SmallestShare: onSheet(sheets.rooms, `G${share}`),
    LargestShare: onSheet(sheets.rooms, `H${share}`),
  };
}

/** Floor, walls storey by storey, ceiling, and further parts; a storey without an outline takes no part. */
function writeEnvelopeArea(
  sheet: Sheet,
  at: number,
  outlines: readonly OutlinePlaces[],
  rooms: RoomRows,
  { storeyHeights, units }: Scenario,
): Record<string, string> {
  const { length: unit } = units;
  writeHeading(sheet, at, ["B", "H"], "Envelope area, ground and neighbours included");
  writeColumnHeads(sheet, at + 1, "B", [
    "<part",
    "",
    "",
    "",
    `height, ${unit}`,
    `perimeter, ${unit}`,
    `area, ${units.area}`,
  ]);
  const first = at + 2;
  const ground = outlines[0]?.plan ?? "";
  sheet.put(`B${first}`, "Floor to the ground, outline of the ground floor", looks.label);
  const [further, total] = [first + 5, first + 5 + furtherRows];
  const typedParts = `$F$${first + 1}:$F$${first + 3},$B$${further}:$H$${total - 1}`;
  const nothing = `COUNTA(${typedRooms(rooms)},${outlines.map(({ typed }) => typed).join(",")},${typedParts})=0`;
  sheet.formula(`H${first}`, `IF(${ground}="",IF(${nothing},"",NA()),${ground})`, native(decimals(2)));
  const walls = [
    ["Walls of the ground floor, up to the next floor or the ceiling", storeyHeights.ground],
    ["Walls of the upper floor, up to the next floor or the ceiling", storeyHeights.upper],
    ["Walls of the top floor, up to the ceiling", storeyHeights.top],
  ] as const;
  walls.forEach(([part, height], index) => {
    const row = first + 1 + index;
    const { plan = "", around = "" } = outlines[index] ?? {};
    sheet.put(`B${row}`, part, looks.label).type(`F${row}`, height, decimals(2));
    sheet.formula(`G${row}`, `IF(${plan}="","",${around})`, native(decimals(2)));
    const area = `IF(COUNT(F${row}:G${row})<2,NA(),F${row}*G${row})`;
    sheet.formula(`H${row}`, `IF(G${row}="","",${area})`, native(decimals(2)));
  });
  const ceiling = first + 1 + walls.length;
  sheet.put(`B${ceiling}`, "Ceiling under the roof, the largest of the outlines", looks.label);
  const plans = outlines.map(({ plan }) => plan).join(",");
  sheet.formula(`H${ceiling}`, `IF(COUNT(${plans})=0,IF(H${first}="","",NA()),MAX(${plans}))`, native(decimals(2)));
  for (let row = further; row < total; row++) {
    sheet.type(`B${row}`, null, undefined, "left").merge(`B${row}:G${row}`).type(`H${row}`, null, decimals(2));
  }
  for (let row = first; row < further; row++) sheet.paint(`B${row}:H${row}`, looks.label);
  const sum = style({ bold: true, top: palette.petrol, align: "right", format: decimals(2) });
  sheet.rich(`B${total}`, "Envelope area A_{E}", style({ align: "left" }, sum)).paint(`C${total}:G${total}`, sum);
  const typed = `H${further}:H${total - 1}`;
  const whole = `${wholeSum(typed)}+SUM(H${first}:H${further - 1})`;
  sheet.formula(`H${total}`, `IF(H${first}="","",${whole})`, sum);
  sheet.validate(
    between(
      `F${first + 1}:F${first + 3}`,
      Number((1 / units.in.length).toFixed(1)),
      Number((12 / units.in.length).toFixed(1)),
      `Height, ${unit}`,
      "Height of the storey's outer walls, measured inside.",
    ),
    text(
      `B${further}:G${total - 1}`,
      "Further part",
      "A part of the envelope that the outlines do not give: a floor over a passage, a dormer. Its area stands at the end of the row.",
      80,
    ),
    between(typed, -50000, 50000, `Area, ${units.area}`, "Area of this part; below zero where it is deducted."),
  );
  return { EnvelopeArea: onSheet(sheets.rooms, `H${total}`) };
}

export interface RoomRows {
  readonly first: number;
  readonly last: number;
}

/** What is typed of the rooms. */
export function typedRooms({ first, last }: RoomRows): string {
  return `$B$${first}:$E$${last},$G$${first}:$G$${last}`;
}

interface Storey {
  readonly name: "ground" | "upper" | "top";
  /** Columns of x, y and the length of the side that starts at the corner. */
  readonly columns: readonly [x: string, y: string, side: string];
  /** Rows below the first corner table at which this storey's own starts. */
  readonly down: number;
}

const corners = 8;
const tableRows = corners + 5;

const storeys: readonly Storey[] = [
  { name: "ground", columns: ["C", "D", "E"], down: 0 },
  { name: "upper", columns: ["F", "G", "H"], down: 0 },
  { name: "top", columns: ["C", "D", "E"], down: tableRows },
];

/** The first corner of the first storeys, below the heads of the section. */
const cornersFirst = envelopeAt + 2;

/** Cells of the corners, storey by storey. */
export const outlineCorners = storeys.map(({ columns: [x, y], down }) => {
  const row = cornersFirst + down;
  return `${x}${row}:${y}${row + corners - 1}`;
});

/** The area of the rooms on a storey. */
function inRooms(storey: string, rooms: RoomRows): string {
  return `SUMIF($C$${rooms.first}:$C$${rooms.last},"${storey}",$F$${rooms.first}:$F$${rooms.last})`;
}

/** The area of the rooms whose storey is one of the list: what is missing from it has no storey. */
export function onAnyStorey(rooms: RoomRows): string {
  return storeys.map(({ name }) => inRooms(name, rooms)).join("+");
}

function writeOutline(
  sheet: Sheet,
  first: number,
  { name, columns }: Storey,
  rooms: RoomRows,
  { outlines, units }: Scenario,
): OutlinePlaces {
  const [x, y, side] = columns;
  const extent = Math.round(100 / units.in.length);
  const last = first + corners - 1;
  const [plan, around, filled] = [last + 1, last + 2, last + 3];
  if (x === "C") {
    for (let row = first; row <= last; row++)
      sheet.put(`B${row}`, row - first + 1, style({ align: "left" }, looks.label));
    sheet.put(`B${plan}`, `Inside, ${units.area}: by the add-in; native`, looks.label);
    sheet.put(`B${around}`, `Perimeter, ${units.length}`, looks.label);
    sheet.put(`B${filled}`, "Share that the rooms fill", looks.label);
  }
  for (let row = first; row <= last; row++) {
    const corner = outlines[name][row - first];
    sheet.type(`${x}${row}`, corner?.[0] ?? null, decimals(2)).type(`${y}${row}`, corner?.[1] ?? null, decimals(2));
    sheet.formula(`${side}${row}`, sideFormula(x, y, row, first, last), native(decimals(2)));
  }
  const typed = `${x}${first}:${y}${last}`;
  const ifTyped = (value: string) => `IF(COUNTA(${typed})=0,"",${value})`;
  // Area and check stand side by side: the formula in the column of the sides, the add-in's in that of x.
  const sides = `${side}${first}:${side}${last}`;
  const inside = `IF(ISERROR(SUM(${sides})),NA(),${insideFormula(x, y, first, last)})`;
  sheet.formula(`${side}${plan}`, ifTyped(inside), native(decimals(2)));
  sheet.addIn(`${x}${plan}`, ifTyped(call("FLOORAREA", keepBlanks(typed))), fromAddIn(decimals(2)));
  const differs = `ABS(${side}${plan}-${x}${plan})>0.000000001*${side}${plan}`;
  sheet.formula(`${y}${plan}`, ifTyped(`IFERROR(IF(${differs},"differs","agrees"),"differs")`), native());
  sheet.formula(`${side}${around}`, `IF(${side}${plan}="","",SUM(${sides}))`, native(decimals(2)));
  const ofRooms = inRooms(name, rooms);
  const unlessEmpty = `IF(${ofRooms}=0,"",NA())`;
  sheet.formula(`${side}${filled}`, `IF(${side}${plan}="",${unlessEmpty},${ofRooms}/${side}${plan})`, native("0.0 %"));
  for (const row of [plan, around, filled]) sheet.paint(`${x}${row}:${side}${row}`, looks.label);
  sheet.validate(
    between(
      typed,
      -extent,
      extent,
      `Corner, ${units.length}`,
      "x and y of an inner corner, going round once. Spare rows stay blank.",
    ),
  );
  return {
    typed: absolute(typed),
    plan: `${side}${plan}`,
    around: `${side}${around}`,
    filled: `${side}${filled}`,
    compared: `${y}${plan}`,
  };
}

/** Gauss's area formula: trailing blanks count as 0 and so add nothing; the last corner is closed with the first one. */
function insideFormula(x: string, y: string, first: number, last: number): string {
  const part = (letter: string, from: number, to: number) => `${letter}${from}:${letter}${to}`;
  const forth = `SUMPRODUCT(${part(x, first, last - 1)},${part(y, first + 1, last)})`;
  const back = `SUMPRODUCT(${part(x, first + 1, last)},${part(y, first, last - 1)})`;
  const end = (letter: string) => `INDEX(${part(letter, first, last)},COUNT(${part(x, first, last)}))`;
  return `ABS(${forth}-${back}+${end(x)}*${y}${first}-${x}${first}*${end(y)})/2`;
}

/**
 * The distance to the next corner, or from the last one back to the first; #N/A at half a corner and at a gap between corners, so that the area and the
 * perimeter are errors too.
 */
function sideFormula(x: string, y: string, row: number, first: number, last: number): string {
  const to = (next: string) => `SQRT((${x}${next}-${x}${row})^2+(${y}${next}-${y}${row})^2)`;
  const home = to(`$${first}`);
  const blank = (one: number) => `COUNTA(${x}${one}:${y}${one})=0`;
  const onwards = row === last ? home : `IF(${blank(row + 1)},${home},${to(String(row + 1))})`;
  const spare = row === last ? '""' : `IF(COUNTA(${x}${row + 1}:${y}${last})=0,"",NA())`;
  return `IF(${blank(row)},${spare},IF(COUNT(${x}${row}:${y}${row})<2,NA(),${onwards}))`;
}
