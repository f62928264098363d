import { writeColumnHeads, writeHeading } from "../blocks/heading";
import type { Sheet } from "../blocks/sheet";
import { decimals, looks, native, palette, style } from "../blocks/style";
import { between, text } from "../blocks/validation";
import { register } from "./register-columns";
import { openings } from "./scenario";

/** Rows of the planned repairs, drawn from the register: so many are shown, all of them count. */
export const planRows = { at: 52, first: 54, last: 67, total: 68 } as const;

/** Rows of the openings still to come, spare rows included. */
export const openingRows = { at: 72, first: 74, last: 80 } as const;

/** What repairs will take away, as the register has it. */
export function writePlan(sheet: Sheet): void {
  const { at, first, last, total } = planRows;
  writeHeading(sheet, at, ["B", "H"], "Planned repairs, from the leak register: flow at 50 Pa that each takes away");
  writeColumnHeads(sheet, at + 1, "B", [
    "<leak",
    "likely, m³/h",
    "low, m³/h",
    "high, m³/h",
    "<<from",
    "<due",
    "<trade",
  ]);
  const order = register.derived("planned");
  const number = native(decimals(1));
  const words = style({ indent: 1, align: "left" }, looks.label);
  for (let row = first; row <= last; row++) {
    const of = (range: string) => `INDEX(${range},MATCH(${row - first + 1},${order},0))`;
    const shown = (value: string) => `IF(COUNT(${order})<${row - first + 1},"",${value})`;
    const name = `${of(register.typed("place"))}&" (leak "&${of(register.typed("no"))}&")"`;
    sheet.formula(`B${row}`, shown(name), looks.label);
    sheet.formula(`C${row}`, shown(of(register.derived("flow"))), number);
    sheet.formula(`D${row}`, shown(of(register.derived("from"))), number);
    sheet.formula(`E${row}`, shown(of(register.derived("to"))), number);
    sheet.formula(`F${row}`, shown(of(register.derived("basis"))), words);
    const due = of(register.typed("due"));
    sheet.formula(`G${row}`, shown(`IF(${due}="","",${due})`), native("d mmm", "left"));
    sheet.formula(`H${row}`, shown(`${of(register.typed("trade"))}&""`), looks.label);
  }
  const sum = style({ bold: true, top: palette.petrol, align: "right", format: decimals(1) });
  sheet.formula(
    `B${total}`,
    `"all "&COUNT(${order})&" planned repairs"&IF(COUNT(${order})>${last - first + 1},", those further down the register too","")`,
    style({ align: "left" }, sum),
  );
  for (const [letter, name] of [
    ["C", "plannedLikely"],
    ["D", "plannedLow"],
    ["E", "plannedHigh"],
  ] as const)
    sheet.formula(`${letter}${total}`, `SUM(${register.derived(name)})`, sum);
  sheet.paint(`F${total}:H${total}`, sum);
  const missing = `SUMPRODUCT((${register.typed("planned")}="yes")*(${register.typed("place")}<>""))-COUNT(${order})`;
  sheet.formula(
    `B${total + 1}`,
    `IF(${missing}>0,"Planned in the register, but left out here, because their flow is missing or not in order, or they are retested already: "&${missing},` +
      '"Changed in the register only. A flow that tape has measured spans the triangle that has its standard uncertainty.")',
    looks.note,
  );
  sheet.merge(`B${total + 1}:H${total + 1}`);
  sheet.when(`B${total + 1}:H${total + 1}`, `LEFT($B$${total + 1},7)="Planned"`, {
    font: { bold: true, color: { rgb: palette.fail } },
  });
}

/** What openings still to come will add, each between a low and a high flow. */
export function writeOpenings(sheet: Sheet): void {
  const { at, first, last } = openingRows;
  writeHeading(sheet, at, ["B", "H"], "Openings still to come: flow at 50 Pa that each adds");
  writeColumnHeads(sheet, at + 1, "B", ["<what", "likely, m³/h", "low, m³/h", "high, m³/h", "<<"]);
  for (let row = first; row <= last; row++) {
    const [what, likely, low, high] = openings[row - first] ?? [];
    sheet.type(`B${row}`, what ?? null, undefined, "left").type(`C${row}`, likely ?? null, decimals(1));
    sheet.type(`D${row}`, low ?? null, decimals(1)).type(`E${row}`, high ?? null, decimals(1));
    const partly = `AND(COUNT(C${row}:E${row})>0,COUNT(C${row}:E${row})<3)`;
    const disordered = `AND(COUNT(C${row}:E${row})=3,OR(C${row}<D${row},C${row}>E${row}))`;
    sheet.formula(
      `F${row}`,
      `IF(${partly},"three numbers, please",IF(${disordered},"low ≤ likely ≤ high",""))`,
      looks.unit,
    );
  }
  sheet.when(`F${first}:F${last}`, `F${first}<>""`, style({ bold: true, colour: palette.fail }));
  sheet.validate(
    text(`B${first}:B${last}`, "What", "An opening that is still to be made through the barrier.", 60),
    between(`C${first}:E${last}`, 0, 100000, "Flow, m³/h", "At 50 Pa; likely, and the least and the most it may be."),
  );
}
