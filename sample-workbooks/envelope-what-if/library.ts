import { call, quoted } from "../blocks/add-in";
import { onSheet } from "../blocks/address";
import { letterhead, writeColumnHeads, writeHeading, writePageHead } from "../blocks/heading";
import { type Page, Sheet } from "../blocks/sheet";
import { decimals, fromAddIn, input, looks, native, palette, style } from "../blocks/style";
import { between, oneOf, text } from "../blocks/validation";
import { footer, sheets } from "./layout";

/** How a component's leakage is given. */
type Kind = "flow" | "leakage area, 4 Pa" | "hole, 50 Pa";

interface Component {
  readonly name: string;
  readonly unit: "m²" | "m" | "piece";
  readonly kind: Kind;
  /** m³/h at the rated pressure, or cm², per unit. */
  readonly leakage: number;
  /** Rated pressure of a flow, Pa. */
  readonly pressure?: number;
  readonly exponent: number;
  /** C: read in a published text. M: from memory, to be checked. "practice": common practice, no source. */
  readonly mark: "C" | "M" | "practice";
  readonly source: string;
}

const standardClass = (name: string, leakage: number): Component => ({
  name,
  unit: "m²",
  kind: "flow",
  leakage,
  pressure: 100,
  exponent: 2 / 3,
  mark: "C",
  source: "EN 12207:2016, class by area; exponent 2/3 (M)",
});

const element = (name: string, unit: Component["unit"], leakage: number): Component => ({
  name,
  unit,
  kind: "leakage area, 4 Pa",
  leakage,
  exponent: 0.65,
  mark: "C",
  source: "NIST library of residential leakage elements, app. C2; n assumed",
});

const hole = (name: string, leakage: number): Component => ({
  name,
  unit: "piece",
  kind: "hole, 50 Pa",
  leakage,
  exponent: 0.5,
  mark: "practice",
  source: "common practice, no source; discharge coefficient 0.6",
});

/** What components leak; the sheet is the user's to change and to extend. */
const components: readonly Component[] = [
  standardClass("Windows, class 1", 50),
  standardClass("Windows, class 2", 27),
  standardClass("Windows, class 3", 9),
  standardClass("Windows, class 4", 3),
  standardClass("External door, class 2", 27),
  standardClass("External door, class 3", 9),
  standardClass("External door, class 4", 3),
  element("External single door, typical", "piece", 21),
  element("External single door, tight", "piece", 12),
  element("Joint of wall and floor, typical", "m", 4),
  element("Joint of wall and floor, tight", "m", 0.8),
  element("Joint of ceiling and wall, typical", "m", 1.5),
  element("Joint of ceiling and wall, tight", "m", 0.5),
  {
    ...element("Joint, membrane taped and plastered", "m", 0.08),
    mark: "practice",
    source: "common practice, no source",
  },
  element("Ceiling, general, typical", "m²", 1.8),
  element("Ceiling, general, tight", "m²", 0.79),
  element("Attic hatch, typical", "piece", 30),
  element("Attic hatch, tight", "piece", 18),
  element("Bathroom exhaust, typical", "piece", 20),
  element("Bathroom exhaust, tight", "piece", 10),
  element("Kitchen exhaust, typical", "piece", 40),
  element("Kitchen exhaust, tight", "piece", 5),
  element("Duct through the ceiling, typical", "piece", 5),
  element("Duct through the ceiling, tight", "piece", 1),
  hole("Pipe or cable with grommet", 0.1),
  hole("Pipe or cable, foamed", 0.5),
  hole("Pipe or cable, open hole around it", 8),
];

const first = 7;
const last = 40;
const holeAt = last + 1;
const note = last + 3;
const column = (letter: string) => `$${letter}$${first}:$${letter}$${last}`;

const columns = {
  unit: "C",
  kind: "D",
  pressure: "G",
  exponent: "H",
  flow: "I",
  handedLeakage: "O",
  handedPressure: "P",
} as const;

/** The names of the components, for lists. */
export const libraryNames = onSheet(sheets.library, column("B"));

/** What components leak, from published tables and from practice, each brought to 50 Pa. */
export function libraryPage(): Page {
  const sheet = new Sheet(
    sheets.library,
    [1.5, 34, 7.5, 19, 9, 12, 8.5, 8.5, 12, 8.5, 53, 2, 12, 12, 12, 12],
    palette.petrol,
    { orientation: "landscape", areas: [`B1:K${note + 3}`], pages: 1, titleRows: "1:4", footer, workingPaper: true },
  );
  const lead =
    "What one metre, square metre or piece leaks. All of it may be changed; better figures come from the maker’s test report.";
  writePageHead(sheet, letterhead, ["B", "K"], "Library of components", lead);
  sheet.heightOf(13.5, 5, note + 3);
  writeHeading(sheet, 5, ["B", "K"], "Components");
  writeColumnHeads(sheet, 6, "B", [
    "<component",
    "<unit",
    "<given as",
    "leakage",
    "<<in",
    "at Pa",
    "n",
    "m³/h at 50 Pa",
    "<<mark",
    "<source",
  ]);
  writeHeading(sheet, 5, ["M", "P"], "Steps (not printed)");
  writeColumnHeads(sheet, 6, "M", ["from an area", "from a hole", "leakage", "at Pa"]);
  for (let row = first; row <= last; row++) writeLibraryRow(sheet, row);
  writeCarriedLeakage(sheet);
  sheet.rich(
    `B${note}`,
    "Flow: q = leakage · (50/p)^{n}. Leakage area at 4 Pa: effective, discharge coefficient 1, with n to 50 Pa. Hole at 50 Pa: the real opening, discharge coefficient 0.6, n 0.5: 15 cm² are 30 m³/h. " +
      "C: read in a published text; M: from memory; practice: common practice, no source. Typical and tight are the two columns of the library cited. The exponents of the leakage areas are assumed, " +
      "0.65: carried from 4 to 50 Pa they weigh heavily, so a figure measured at 50 Pa is to be preferred.",
    looks.note,
  );
  sheet.merge(`B${note}:K${note + 3}`);
  return { sheet, names: { HoleFlow: onSheet(sheets.library, `I${holeAt}`) } };
}

/** A property of the component with a name; blank while the name is blank. */
export function ofLibrary(property: keyof typeof columns, name: string): string {
  const found = `INDEX(${onSheet(sheets.library, column(columns[property]))},MATCH(${name},${libraryNames},0))`;
  return `IF(${name}="","",IF(${found}="","",${found}))`;
}

function writeLibraryRow(sheet: Sheet, row: number): void {
  const given = components[row - first];
  sheet.type(`B${row}`, given?.name ?? null, undefined, "left").type(`C${row}`, given?.unit ?? null, undefined, "left");
  sheet.type(`D${row}`, given?.kind ?? null, undefined, "left").type(`E${row}`, given?.leakage ?? null, "0.0##");
  const numerator = `IF(D${row}="flow","m³/h","cm²")`;
  sheet.formula(`F${row}`, `IF(D${row}="","",${numerator}&" per "&C${row})`, looks.unit);
  sheet.type(`G${row}`, given?.pressure ?? null, decimals(0)).type(`H${row}`, given?.exponent ?? null, "0.0###");
  const carried = `IF(COUNT(E${row},G${row},H${row})<3,"",E${row}*(50/G${row})^H${row})`;
  const byKind = `IF(D${row}="flow",${carried},IF(D${row}="leakage area, 4 Pa",M${row},N${row}))`;
  sheet.formula(`I${row}`, `IF(D${row}="","",${byKind})`, native(decimals(2)));
  sheet
    .put(`J${row}`, given?.mark ?? null, style({ indent: 1 }, input(undefined, "left")))
    .type(`K${row}`, given?.source ?? null, undefined, "left");
  // A flow is handed on as it is published; an area as the flow that the add-in found for it at 50 Pa.
  sheet.formula(`O${row}`, `IF(D${row}="","",IF(D${row}="flow",IF(E${row}="","",E${row}),I${row}))`, native("0.0##"));
  sheet.formula(`P${row}`, `IF(D${row}="","",IF(D${row}="flow",IF(G${row}="","",G${row}),50))`, native(decimals(0)));
}

function writeCarriedLeakage(sheet: Sheet): void {
  sheet
    .put(`B${holeAt}`, "One real hole of 1 cm², for the leftovers", looks.label)
    .paint(`C${holeAt}:K${holeAt}`, looks.label);
  sheet.addIn(`I${holeAt}`, call("AREAFLOW", "1", quoted("custom"), "0.5", "50", "50", "0.6"), fromAddIn(decimals(2)));
  const ofKind = (kind: string) => `IF(${column("D")}=${quoted(kind)},${column("E")},"")`;
  const area = call("AREAFLOW", ofKind("leakage area, 4 Pa"), quoted("effective 4 Pa"), column("H"), "50");
  const hole = call("AREAFLOW", ofKind("hole, 50 Pa"), quoted("custom"), column("H"), "50", "50", "0.6");
  sheet.addIn(`M${first}:M${last}`, area, fromAddIn(decimals(2)));
  sheet.addIn(`N${first}:N${last}`, hole, fromAddIn(decimals(2)));
  sheet.keep(`B${first}:K${last}`);
  sheet.validate(
    text(
      `B${first}:B${last}`,
      "Component",
      "A name of your choice, each once; the sheet Components finds it by this name.",
      60,
    ),
    oneOf(`C${first}:C${last}`, ["m²", "m", "piece"], "Unit", "What one of it is."),
    oneOf(
      `D${first}:D${last}`,
      ["flow", "leakage area, 4 Pa", "hole, 50 Pa"],
      "Given as",
      "Flow: m³/h at the rated pressure. Leakage area: effective, 4 Pa. Hole: the real opening in cm².",
    ),
    between(`E${first}:E${last}`, 0.0001, 10000, "Leakage", "m³/h at the rated pressure, or cm², for one unit."),
    between(
      `G${first}:G${last}`,
      1,
      1000,
      "Rated pressure, Pa",
      "Only for a flow: the pressure at which it was measured.",
    ),
    between(
      `H${first}:H${last}`,
      0.4,
      1.1,
      "Exponent n",
      "2/3 for windows and doors, about 0.65 for joints, 0.5 for holes.",
    ),
    oneOf(
      `J${first}:J${last}`,
      ["C", "M", "practice"],
      "Mark",
      "C: read in a published text. M: from memory. Practice: no source.",
    ),
    text(`K${first}:K${last}`, "Source", "Where the figure comes from: table, test report, own experience.", 120),
  );
}
