import { onSheet } from "../blocks/address";
import { letterhead, writeColumnHeads, writeHeading, writePageHead } from "../blocks/heading";
import { type Page, Sheet } from "../blocks/sheet";
import { decimals, input, looks, native, palette, style } from "../blocks/style";
import { countOf, repeatsIn, wholeSum } from "../blocks/typed-cells";
import { between, fromList, oneOf, text } from "../blocks/validation";
import { footer, sheets, unitRows } from "./layout";
import { units } from "./scenario";

const { first, last } = unitRows;
const ways = ["position", "largest", "smallest", "by lot", "asked for", "all units"];

/** The units of the building with their sizes, and which of them are tested, how chosen and why. */
export function unitsPage(): Page {
  const widths = [1.5, 9, 18, 12, 12, 14, 14, 12, 14, 44];
  const sheet = new Sheet(sheets.units, widths, palette.petrol, {
    orientation: "landscape",
    areas: [`B1:J${last + 8}`],
    pages: 1,
    footer,
  });
  const lead = "Every unit of the building, tested or not. Clear, inner dimensions. Spare rows may stay blank.";
  writePageHead(sheet, letterhead, ["B", "J"], sheets.units, lead);
  sheet.heightOf(16, 5, last + 8);
  writeHeading(sheet, first - 3, ["B", "J"], "Units");
  writeColumnHeads(sheet, first - 1, "B", [
    "<unit",
    "<position",
    "floor area|m²",
    "volume|m³",
    "envelope, all|six sides, m²",
    "of it to outdoors|and ground, m²",
    "^tested",
    "<chosen by",
    "<why this one",
  ]);
  for (let row = first; row <= last; row++) {
    const unit = units[row - first];
    const words = style({ shrink: true }, input(undefined, "left"));
    sheet.type(`B${row}`, unit?.name ?? null, undefined, "left").put(`C${row}`, unit?.position ?? null, words);
    sheet.type(`D${row}`, unit?.floorArea ?? null, decimals(1)).type(`E${row}`, unit?.volume ?? null, decimals(1));
    sheet
      .type(`F${row}`, unit?.envelopeArea ?? null, decimals(1))
      .type(`G${row}`, unit?.outerArea ?? null, decimals(1));
    sheet.formula(
      `H${row}`,
      `IF(B${row}="","",IF(${countOf("TestedUnits", `B${row}`)}>0,"yes","no"))`,
      native(undefined, "center"),
    );
    sheet.put(`I${row}`, unit?.chosenBy ?? null, words).put(`J${row}`, unit?.why ?? null, words);
  }
  writeTotals(sheet);
  addRules(sheet);
  const column = (letter: string) => onSheet(sheets.units, `${letter}${first}:${letter}${last}`);
  return {
    sheet,
    names: {
      UnitNames: column("B"),
      UnitPositions: column("C"),
      UnitFloorAreas: column("D"),
      UnitVolumes: column("E"),
      UnitEnvelopeAreas: column("F"),
      UnitOuterAreas: column("G"),
      UnitsTested: column("H"),
      UnitReasons: column("J"),
      VolumeConvention: onSheet(sheets.units, `E${last + 3}`),
    },
  };
}

function writeTotals(sheet: Sheet): void {
  const total = last + 1;
  const sum = style({ bold: true, top: palette.petrol, align: "right", format: decimals(1) });
  sheet.put(`B${total}`, "Whole building", style({ align: "left" }, sum)).paint(`B${total}:J${total}`, sum);
  const names = `$B$${first}:$B$${last}`;
  for (const letter of "DEG") {
    const sizes = `${letter}${first}:${letter}${last}`;
    const missing = `SUMPRODUCT((${names}<>"")*(1-ISNUMBER(${sizes})))+COUNTIF(${sizes},"<=0")`;
    sheet.formula(`${letter}${total}`, `IF(COUNTA(${sizes})=0,"",IF(${missing}>0,NA(),${wholeSum(sizes)}))`, sum);
  }
  const isMissing = `INDEX((${names}<>"")*(1-ISNUMBER(E${first}:E${last})),0)`;
  const unsized = `IFERROR("no volume: "&INDEX(${names},MATCH(1,${isMissing},0)),"")`;
  sheet.formula(
    `H${total}`,
    `COUNTIF(H${first}:H${last},"yes")&" of "&COUNTA(B${first}:B${last})`,
    style({ align: "center" }, sum),
  );
  const twice = repeatsIn(`B${first}:B${last}`, first);
  sheet.formula(
    `I${total}`,
    `IF(${twice}>0,"a name stands twice",${unsized})`,
    style({ colour: palette.fail, align: "left" }, sum),
  );
  const at = last + 3;
  sheet.put(`B${at}`, "Volume convention", looks.label).paint(`C${at}:D${at}`, looks.label);
  sheet.type(`E${at}`, "whole internal", undefined, "left").merge(`E${at}:F${at}`);
  sheet.put(
    `B${at + 2}`,
    "The envelope of a unit by ISO 9972 has six sides, walls and floors to neighbours included: its own rate per area divides by all of them while the neighbours are not guarded. To the building’s rate per area only what faces outdoors and the ground counts. " +
      "A unit is tested as soon as a run on the sheet Runs bears its name; how and why it was chosen belongs to the record either way.",
    looks.note,
  );
  sheet.merge(`B${at + 2}:J${at + 4}`);
}

function addRules(sheet: Sheet): void {
  const column = (letter: string, to = letter) => `${letter}${first}:${to}${last}`;
  sheet.validate(
    text(column("B"), "Unit", "Its number or name, each once; runs and results find the unit by it.", 12),
    fromList(column("C"), "PositionList", "Position", "From the list on the sheet Sampling."),
    between(column("D"), 5, 10000, "Floor area, m²", "Inside, of the unit alone."),
    between(column("E"), 10, 100000, "Volume, m³", "Internal volume of the unit, by the convention below."),
    between(column("F", "G"), 1, 100000, "Area, m²", "All six sides; and of them what faces outdoors or the ground."),
    oneOf(column("I"), ways, "Chosen by", "How this unit came into the sample; blank where it is not in it."),
    text(column("J"), "Why", "Why this unit, or why it could not be tested.", 80),
    oneOf(
      `E${last + 3}:F${last + 3}`,
      ["whole internal", "room by room"],
      "Volume convention",
      "Room by room: clear room volumes. Whole internal: partitions not deducted. The criterion says which one it means.",
    ),
  );
}
