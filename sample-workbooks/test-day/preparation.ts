import { onSheet } from "../blocks/address";
import { type Status, statuses } from "../blocks/check-lists";
import { letterhead, writeColumnHeads, writeHeading, writePageHead } from "../blocks/heading";
import { type Page, Sheet } from "../blocks/sheet";
import { looks, native, palette, style } from "../blocks/style";
import { oneOf, text } from "../blocks/validation";
import { footer, sheets } from "./layout";

/** Methods of ISO 9972:2015 with their purpose (M). */
export const methods = [
  ["method 1", "the building in use, as it is lived in."],
  ["method 2", "the envelope alone, all openings made on purpose sealed."],
  ["method 3", "a specific purpose, such as a certificate, which says what is closed, sealed or open."],
] as const;

/** Kinds of openings, and what methods 1, 2 and 3 do with them. */
const kinds: readonly (readonly [kind: string, first: string, second: string, third: string])[] = [
  ["natural ventilation", "closed", "sealed", "as specified"],
  ["whole-house ventilation, air conditioning", "sealed", "sealed", "as specified"],
  ["ventilation used now and then", "closed", "sealed", "as specified"],
  ["window, door, hatch", "closed", "closed", "as specified"],
  ["not meant for ventilation", "closed", "sealed", "as specified"],
];

/** Openings of the invented house: name, place among the kinds, how far it is. */
const openingsOfHouse: readonly (readonly [opening: string, kind: number, status: Status])[] = [
  ["Vents in the window frames", 0, "not yet"],
  ["Air brick in the larder", 0, "done"],
  ["Ventilation unit: outdoor and exhaust air", 1, "not yet"],
  ["Kitchen hood to outdoors", 2, "not yet"],
  ["Bathroom fan", 2, "not yet"],
  ["Tumble dryer outlet", 2, "n/a"],
  ["Windows", 3, "done"],
  ["Outer doors other than the fan’s", 3, "done"],
  ["Roof hatch, inside the envelope line", 3, "done"],
  ["Door to the unheated store", 3, "not yet"],
  ["Stove: door, air supply, damper", 4, "not yet"],
  ["Letter box", 4, "not yet"],
  ["Cat flap", 4, "n/a"],
  ["Service entries not yet connected", 4, "not yet"],
];

const list = { first: 8, last: 25 } as const;

/** The state of an opening that method 3 leaves to its purpose, while nobody has said what the purpose asks. */
export const unspecified = "to be specified";
const matrixAt = list.last + 3;

/** Each opening of the list and what it is to be, by address, for the record of the site. */
export const plannedOpenings = Array.from({ length: list.last - list.first + 1 }, (_, index) => {
  const cell = (letter: string) => onSheet(sheets.preparation, `${letter}${list.first + index}`);
  return { opening: cell("B"), state: cell("D") };
});
const matrix = { first: matrixAt + 2, last: matrixAt + 1 + kinds.length } as const;

/** How each opening of the house is to be prepared by the method chosen, and whether that is done. */
export function preparationPage(): Page {
  const last = matrix.last + 3;
  const sheet = new Sheet(sheets.preparation, [1.5, 30, 33, 12, 13, 11, 14, 24], palette.petrol, {
    orientation: "landscape",
    areas: [`B1:H${last}`],
    titleRows: "1:4",
    pages: 1,
    footer,
  });
  writePageHead(sheet, letterhead, ["B", "H"], "Preparation", "");
  sheet.formula(
    "B3",
    '"Each opening closed, sealed or open, by ISO 9972 "&IF(Method="","(no method chosen)",Method)&"."',
    looks.lead,
  );
  sheet.heightOf(14, 5, last);
  writeOpenings(sheet);
  writeMethodMatrix(sheet);
  const cell = (place: string) => onSheet(sheets.preparation, place);
  return {
    sheet,
    names: {
      PreparationOpen: cell(`F${list.last + 1}`),
      PreparationAll: cell(`G${list.last + 1}`),
      Methods: cell(`C${matrixAt + 1}:E${matrixAt + 1}`),
    },
  };
}

function writeOpenings(sheet: Sheet): void {
  const { first, last } = list;
  writeHeading(sheet, first - 3, ["B", "H"], "Openings of this house");
  writeColumnHeads(sheet, first - 1, "B", [
    "<opening",
    "<what kind it is",
    "<is to be",
    "<as specified|(method 3)",
    "<status",
    "<seen to by",
    "<restored, remark",
  ]);
  for (let row = first; row <= last; row++) {
    const given = openingsOfHouse[row - first];
    sheet
      .type(`B${row}`, given?.[0] ?? null, undefined, "left")
      .type(`C${row}`, given ? (kinds[given[1]]?.[0] ?? null) : null, undefined, "left");
    const found = `INDEX($C$${matrix.first}:$E$${matrix.last},MATCH($C${row},$B$${matrix.first}:$B$${matrix.last},0),MATCH(Method,$C$${matrixAt + 1}:$E$${matrixAt + 1},0))`;
    const specified = `IF($E${row}="","${unspecified}",$E${row})`;
    sheet.formula(
      `D${row}`,
      `IF(OR($C${row}="",Method=""),"",IF(${found}="as specified",${specified},${found}))`,
      style({ bold: true }, native(undefined, "left")),
    );
    sheet.type(`E${row}`, null, undefined, "left").type(`F${row}`, given?.[2] ?? null, undefined, "left");
    sheet.type(`G${row}`, null, undefined, "left").type(`H${row}`, null, undefined, "left");
  }
  const total = last + 1;
  const settled = `COUNTIF($F$${first}:$F$${last},"done")+COUNTIF($F$${first}:$F$${last},"n/a")`;
  sheet.put(`B${total}`, "Still to do, of", looks.strong).paint(`C${total}:E${total}`, looks.label);
  sheet.formula(`G${total}`, `COUNTA($B$${first}:$B$${last})`, native('"of "0', "left"));
  sheet.formula(`F${total}`, `MAX(0,G${total}-(${settled}))`, style({ bold: true }, native("0", "left")));
  sheet.when(`D${first}:D${last}`, `$D${first}="${unspecified}"`, { font: { color: { rgb: palette.fail } } });
  sheet.validate(
    text(`B${first}:B${last}`, "Opening", "One opening, or a group that is treated alike.", 60),
    oneOf(
      `C${first}:C${last}`,
      kinds.map(([kind]) => kind),
      "Kind",
      "Decides how the method treats it.",
    ),
    oneOf(
      `E${first}:E${last}`,
      ["closed", "sealed", "open"],
      "As specified",
      "Method 3 only: what its purpose asks of this opening.",
    ),
    oneOf(`F${first}:F${last}`, statuses, "Status", "Done, not yet, or n/a: the house has none."),
    text(`G${first}:G${last}`, "Seen to by", "Initials.", 20),
    text(`H${first}:H${last}`, "Remark", "How it was sealed; that it was restored after the test.", 80),
  );
}

function writeMethodMatrix(sheet: Sheet): void {
  writeHeading(
    sheet,
    matrixAt,
    ["B", "H"],
    "What the methods of ISO 9972:2015 ask (table of the preparation, M: check your own copy)",
  );
  writeColumnHeads(sheet, matrixAt + 1, "B", ["<kind of opening", ...methods.map(([name]) => `<${name}`)]);
  kinds.forEach(([kind, ...states], index) => {
    const row = matrix.first + index;
    sheet.put(`B${row}`, kind, style({ shrink: true }, looks.label));
    states.forEach((state, column) => sheet.type(`${"CDE".charAt(column)}${row}`, state, undefined, "left"));
  });
  sheet.put(
    `B${matrix.last + 1}`,
    methods.map(([name, purpose]) => `${name}: ${purpose}`).join(" ") +
      " The criterion says which method it means; a programme may add its own list. Interior doors stay open in every method, and water seals are filled.",
    looks.note,
  );
  sheet.merge(`B${matrix.last + 1}:H${matrix.last + 3}`);
  const states = ["closed", "sealed", "open", "as specified"];
  sheet.validate(oneOf(`C${matrix.first}:E${matrix.last}`, states, "State", "As your edition of the standard has it."));
}
