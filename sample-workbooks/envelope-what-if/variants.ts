import { call, writeSettings } from "../blocks/add-in";
import { absolute, onSheet } from "../blocks/address";
import { letterhead, writeColumnHeads, writeHeading, writePageHead } from "../blocks/heading";
import { type Page, Sheet } from "../blocks/sheet";
import { decimals, fromAddIn, input, looks, native, palette, style } from "../blocks/style";
import { countOf } from "../blocks/typed-cells";
import { between, fromList, oneOf, text, wholeBetween } from "../blocks/validation";
import { allowedSettings, countedVolume, leftoverWords } from "./allowed";
import { amountStates } from "./component-layout";
import { componentTotals } from "./components";
import { footer, sheets, variantCount, variantRows } from "./layout";
import { limitNames, ofLimit } from "./limits";
import { exponent, variants } from "./scenario";

/** Where the exponent stands that carries leakage from one pressure to another. */
const exponentAt = "C5";

/** One row a variant in three tables: its outline, what its limit counts, what it may leak. */
export function variantsPage(): Page {
  const last = variantRows.allowed + variantCount + 2;
  const sheet = new Sheet(
    sheets.variants,
    [1.5, 19.5, 9.5, 8.5, 8.5, 8.5, 9.5, 10, 8.5, 10, 10, 10, 10, 11, 14.5, 33.5, 2, 26, 28, 13, 13, 13],
    palette.copper,
    { orientation: "landscape", areas: [`B1:P${last}`], pages: 1, titleRows: "1:4", footer },
  );
  const lead =
    "The house in several forms, side by side: another outline, another limit, other components. Each name once; spare rows stay blank.";
  writePageHead(sheet, letterhead, ["B", "P"], "Variants", lead);
  sheet.heightOf(13, 5, last).height(26, variantRows.outline - 3);
  sheet.put("B5", "Exponent n of leaks", looks.label);
  sheet.put(exponentAt, exponent, input(decimals(2)));
  sheet.put(
    "D5",
    "0.65 until a test has measured it (ANSI/RESNET/ICC 380, one-point test, M). Among houses it scatters by about 0.06.",
    { ...looks.note, alignment: { horizontal: "left", vertical: "center", indent: 1 } },
  );
  sheet.merge("D5:P5");
  sheet.validate(between(exponentAt, 0.5, 1, "Exponent n", "How leakage grows with pressure; 0.5 to 1."));
  writeOutlineTable(sheet);
  writeCountedTable(sheet);
  writeAllowedTable(sheet, exponentAt);
  return { sheet, names: { Exponent: onSheet(sheets.variants, exponentAt) } };
}

const outlineFirst = variantRows.outline;
const outlineLast = outlineFirst + variantCount - 1;
const indentedInput = style({ indent: 1 }, input(undefined, "left"));

/** Inner lengths of each variant, and the size that follows; all variants in one call. */
function writeOutlineTable(sheet: Sheet): void {
  writeHeading(sheet, outlineFirst - 3, ["B", "P"], "Outline of each variant, inside the outer walls");
  writeColumnHeads(sheet, outlineFirst - 1, "B", [
    "<variant",
    "<sizes from",
    "length|m",
    "width|m",
    "storeys",
    "storey|height, m",
    "<<roof",
    "rise to the|ridge, m",
    "partitions,|floors, %",
    "volume|m³",
    "envelope|area, m²",
    "floor|area, m²",
    "perimeter|m",
    "height above|ground, m",
    "storeys|counted",
  ]);
  for (let row = outlineFirst; row <= outlineLast; row++) {
    const given = variants[row - outlineFirst];
    sheet
      .type(`B${row}`, given?.name ?? null, undefined, "left")
      .type(`C${row}`, given?.from ?? null, undefined, "left");
    sheet.type(`D${row}`, given?.length ?? null, decimals(2)).type(`E${row}`, given?.width ?? null, decimals(2));
    sheet
      .type(`F${row}`, given?.storeys ?? null, decimals(0))
      .type(`G${row}`, given?.storeyHeight ?? null, decimals(2));
    sheet.put(`H${row}`, given?.roof ?? null, indentedInput).type(`I${row}`, given?.rise || null, decimals(2));
    sheet.type(`J${row}`, given?.partitions ?? null, decimals(0));
    const fromPlan = (value: string, own: string) => `IF(B${row}="","",IF(C${row}="corners",${value},${own}))`;
    const around = ofAll(`D${row}:E${row}`, `2*(D${row}+E${row})`);
    const height = ofAll(`F${row}:G${row}`, `F${row}*G${row}+I${row}`);
    sheet.formula(`N${row}`, fromPlan("PlanPerimeter", around), native(decimals(1)));
    sheet.formula(`O${row}`, fromPlan("PlanHeight", height), native(decimals(2)));
    sheet.formula(`T${row}`, fromPlan("PlanVolume", `K${row}`), native(decimals(1)));
    const walls = ofAll(`D${row}:F${row}`, `2*(D${row}+E${row})*F${row}`, 3);
    sheet.formula(`U${row}`, fromPlan("PlanWallLength", walls), native(decimals(1)));
    const planned = 'IF(PlanStoreys="","",PlanHeight/PlanStoreys)';
    sheet.formula(`V${row}`, fromPlan(planned, `IF(G${row}="","",G${row})`), native(decimals(2)));
    sheet.formula(`P${row}`, fromPlan("PlanStoreys", `IF(F${row}="","",F${row}+0)`), native(decimals(0)));
  }
  const column = (letter: string) => `$${letter}$${outlineFirst}:$${letter}$${outlineLast}`;
  const size = call("ENVELOPESIZE", ...["D", "E", "F", "G", "H", "I"].map(column));
  sheet.addIn(`K${outlineFirst}:M${outlineLast}`, size, fromAddIn(decimals(1)));
  sheet.when(
    `B${outlineFirst}:B${outlineLast}`,
    `AND(B${outlineFirst}<>"",${countOf(column("B"), `B${outlineFirst}`)}>1)`,
    {
      font: { bold: true, color: { rgb: palette.fail } },
    },
  );
  sheet.validate(
    text(
      `B${outlineFirst}:B${outlineLast}`,
      "Variant",
      "A name of your choice, each once: other sheets find the variant by it.",
      24,
    ),
    oneOf(
      `C${outlineFirst}:C${outlineLast}`,
      ["outline", "corners"],
      "Sizes from",
      "Outline: a rectangle with a roof, in this row. Corners: the sheet Odd plan.",
    ),
    between(
      `D${outlineFirst}:E${outlineLast}`,
      1,
      500,
      "Length, width, m",
      "Inside the outer walls. The ridge runs along the length.",
    ),
    wholeBetween(`F${outlineFirst}:F${outlineLast}`, 1, 30, "Storeys", "Number of heated storeys."),
    between(
      `G${outlineFirst}:G${outlineLast}`,
      1.8,
      12,
      "Storey height, m",
      "Floor to floor; the top storey floor to eaves.",
    ),
    oneOf(
      `H${outlineFirst}:H${outlineLast}`,
      ["flat", "gable", "hip", "mono-pitch"],
      "Roof",
      "Shape of the heated space under the roof. Flat where the ceiling is the envelope.",
    ),
    between(
      `I${outlineFirst}:I${outlineLast}`,
      0.1,
      30,
      "Rise, m",
      "Height of the ridge above the eaves. Blank under a flat roof.",
    ),
    between(
      `J${outlineFirst}:J${outlineLast}`,
      0,
      40,
      "Partitions, floors, %",
      "Share of the volume that inner walls and floors take. Needed where the limit counts room by room; 0 takes nothing off.",
    ),
  );
}

/** Blank while one of the numbers is missing; #N/A where one is text. */
function ofAll(cells: string, formula: string, count = 2): string {
  return `IF(COUNTA(${cells})<>COUNT(${cells}),NA(),IF(COUNT(${cells})<${count},"",${formula}))`;
}

const countedFirst = variantRows.counted;
const countedLast = countedFirst + variantCount - 1;
const indentedFormula = style({ indent: 1 }, native(undefined, "left"));

/** The limit of each variant, and the sizes that it counts. */
function writeCountedTable(sheet: Sheet): void {
  writeHeading(sheet, countedFirst - 3, ["B", "P"], "Limit of each variant, and the sizes that it counts");
  const heads = ["<variant", "<criterion", "<", "<", "<quantity that is limited", "<", "<"];
  const sizes = ["holds|at, Pa", "limit", "<<unit", "volume|counted, m³", "envelope|area, m²", "floor|area, m²"];
  writeColumnHeads(sheet, countedFirst - 1, "B", [...heads, ...sizes, "<<volume is", "<<to look into"]);
  sheet.merge(`C${countedFirst - 1}:E${countedFirst - 1}`).merge(`F${countedFirst - 1}:H${countedFirst - 1}`);
  for (let row = countedFirst; row <= countedLast; row++) {
    const drawn = row - countedFirst + variantRows.outline;
    const criterion = `C${row}`;
    sheet.formula(`B${row}`, `IF(B${drawn}="","",B${drawn})`, looks.strong);
    sheet
      .put(criterion, variants[row - countedFirst]?.criterion ?? null, input(undefined, "left"))
      .merge(`C${row}:E${row}`);
    sheet.formula(`F${row}`, ofLimit("quantity", criterion), native(undefined, "left")).merge(`F${row}:H${row}`);
    sheet.formula(`I${row}`, ofLimit("pressure", criterion), native(decimals(0)));
    sheet.formula(`J${row}`, ofLimit("limit", criterion), native("0.0##"));
    sheet.formula(`K${row}`, ofLimit("unit", criterion), looks.unit);
    const size = (planned: string, own: string) =>
      `IF(B${drawn}="","",IF(C${drawn}="corners",${planned},${own}${drawn}))`;
    const [whole, partitions] = [`T${drawn}`, `J${drawn}`];
    sheet.formula(`L${row}`, countedVolume(whole, `O${row}`, partitions), native(decimals(1)));
    sheet.formula(`M${row}`, size("PlanEnvelopeArea", "L"), native(decimals(1)));
    sheet.formula(`N${row}`, size("PlanFloorArea", "M"), native(decimals(1)));
    sheet.formula(`O${row}`, ofLimit("convention", criterion), indentedFormula);
    sheet.formula(`P${row}`, toLookInto(row, drawn), indentedFormula);
  }
  sheet.validate(
    fromList(
      `C${countedFirst}:E${countedLast}`,
      limitNames,
      "Criterion",
      "A row of the sheet Limits, by its name; its limit follows.",
    ),
  );
}

/** What keeps a variant from being reckoned, or what a reader should know of it. */
function toLookInto(row: number, drawn: number): string {
  const several = `${countOf(`$B$${variantRows.outline}:$B$${variantRows.outline + variantCount - 1}`, `B${drawn}`)}>1`;
  return (
    [
      `IF(B${drawn}="",IF(COUNTA(C${drawn}:J${drawn},C${row})=0,"","a name is missing")`,
      `IF(${several},"the name stands twice"`,
      `IF(C${row}="","no criterion chosen"`,
      `IF(J${row}="","the sheet Limits has no such limit"`,
      `IF(AND(O${row}="room by room",J${drawn}=""),"share of partitions is missing"`,
      `IF(AND(O${row}="room by room",OR(J${drawn}<0,J${drawn}>40,AND(J${drawn}>0,J${drawn}<1))),"share of partitions: 11 for 11 %"`,
      `IF(OR(ISERROR(L${row}),ISERROR(M${row})),"sizes cannot be reckoned"`,
      `IF(OR(L${row}="",M${row}=""),"sizes are missing",""`,
    ].join(",") + ")".repeat(8)
  );
}

const allowedFirst = variantRows.allowed;
const settingsColumns = ["R", "S"] as const;
const settingsRows = 4;

/** What each limit allows, in every quantity, and what the known components take of it. */
function writeAllowedTable(sheet: Sheet, exponentAt: string): void {
  writeHeading(sheet, allowedFirst - 3, ["B", "P"], "What each variant may leak; what its known components take of it");
  writeColumnHeads(sheet, allowedFirst - 1, "B", [
    "<variant",
    "flow at|50 Pa, m³/h",
    "at limit’s|pressure",
    "n50|1/h",
    "qE50|m³/(h·m²)",
    "qF50|m³/(h·m²)",
    "area, 4 Pa|Cd 1, cm²",
    "10 Pa|Cd 1, cm²",
    "10 Pa|0.611, cm²",
    "4 Pa, per m²|cm²/m²",
    "known at|50 Pa, m³/h",
    "share|taken",
    "left over|m³/h",
    "left as one|hole, cm²",
    "<<in plain words",
  ]);
  writeHeading(sheet, variantRows.outline - 3, [settingsColumns[0], "V"], "Handed to the add-in (not printed)");
  writeColumnHeads(sheet, variantRows.outline - 1, "T", [
    "whole volume, m³",
    "walls, all storeys, m",
    "storey height, m",
  ]);
  for (let index = 0; index < variantCount; index++) writeVariantRow(sheet, index, exponentAt);
  const last = allowedFirst + variantCount - 1;
  sheet.when(`B${allowedFirst}:P${last}`, `AND(ISNUMBER($N${allowedFirst}),$N${allowedFirst}<0)`, {
    font: { color: { rgb: palette.fail } },
  });
  sheet.put(
    `B${last + 1}`,
    "Leakage areas by their definitions: effective at 4 Pa with discharge coefficient 1, ISO 9972 at 10 Pa with 1, equivalent at 10 Pa with 0.611. One hole: the opening that one could find, at 50 Pa with 0.6. " +
      "All flows are at reference conditions, 20 °C and 101 325 Pa.",
    looks.note,
  );
  sheet.merge(`B${last + 1}:P${last + 2}`);
}

function writeVariantRow(sheet: Sheet, index: number, exponentAt: string): void {
  const row = allowedFirst + index;
  const counted = variantRows.counted + index;
  const at = variantRows.outline + index * settingsRows;
  const settings = allowedSettings(`F${counted}`, `I${counted}`, absolute(exponentAt));
  const block = writeSettings(sheet, settingsColumns, at, settings);
  sheet.formula(`B${row}`, `IF(B${counted}="","",B${counted})`, looks.strong);
  const allowed = call("ALLOWEDLEAKAGE", `J${counted}`, block, `L${counted}`, `M${counted}`, `N${counted}`);
  const formats = [1, 1, 3, 3, 3, 1, 1, 1].map(decimals);
  sheet.addIn(`C${row}:J${row}`, allowed, (_, column) => fromAddIn(formats[column]));
  const known = `INDEX(${componentTotals},${index + 1})`;
  const numbers = (cells: string, count: number, formula: string) => `IF(COUNT(${cells})<${count},"",${formula})`;
  sheet.formula(`K${row}`, numbers(`H${row},M${counted}`, 2, `H${row}/M${counted}`), native(decimals(2)));
  sheet.formula(`L${row}`, `IF(B${row}="","",${known})`, native(decimals(1)));
  sheet.formula(`M${row}`, numbers(`C${row},L${row}`, 2, `L${row}/C${row}`), native("0 %"));
  sheet.formula(
    `N${row}`,
    numbers(`C${row},L${row}`, 2, `C${row}-L${row}`),
    style({ bold: true }, native(decimals(1))),
  );
  sheet.formula(`O${row}`, numbers(`N${row}`, 1, `IF(N${row}>0,N${row}/HoleFlow,0)`), native(decimals(0)));
  const words = leftoverWords(`N${row}`, `M${row}`, `INDEX(${amountStates},${index + 1})`);
  sheet.formula(`P${row}`, numbers(`N${row}`, 1, words), style({ indent: 1 }, native(undefined, "left")));
}
