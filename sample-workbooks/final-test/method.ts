import { call } from "../blocks/add-in";
import { columnHeads, letterhead, pageHead, section } from "../blocks/heading";
import { heightFor, type Page, Sheet } from "../blocks/sheet";
import { fromAddIn, looks, palette, style } from "../blocks/style";
import { methodSteps, reviewerChecks } from "./method-text";
import { footer, sheets } from "./places";

/** What each step does, where it stands, where it comes from; what a reviewer looks at; the version of the method behind a result. */
export function methodPage(result: string): Page {
  const end = 7 + methodSteps.length + reviewerChecks.length + 3;
  const reviewAt = 7 + methodSteps.length + 1;
  const sheet = new Sheet(sheets.method, [1.5, 19, 14, 56, 21, 6.5], palette.petrol, {
    orientation: "portrait",
    areas: [`B1:F${reviewAt - 1}`, `B${reviewAt}:F${end}`],
    titleRows: "1:4",
    pages: 2,
    footer,
  });
  const lead =
    "Each step stands in a cell of its own. C: read in a published text. M: from memory of the standard; check your own copy.";
  pageHead(sheet, letterhead, ["B", "F"], "Notes on the method", lead);
  section(sheet, 5, ["B", "F"], "Step by step");
  columnHeads(sheet, 6, "B", ["<step", "<where", "<what it does", "<<source", "<<mark"]);
  sheet.height(16, 5).height(14, 6);
  let row = 7;
  for (const { step, where, what, source, mark } of methodSteps) {
    sheet.put(`B${row}`, step, style({ bold: true, wrap: true, vertical: "top" }, looks.textLine));
    sheet.put(`C${row}`, where, style({ size: 8, colour: palette.grey, vertical: "top" }, looks.textLine));
    sheet.rich(`D${row}`, what, style({ vertical: "top" }, looks.textLine));
    sheet.put(`E${row}`, source, style({ size: 8, vertical: "top", align: "left", indent: 1 }, looks.textLine));
    sheet.put(`F${row}`, mark, style({ vertical: "top", align: "left", indent: 1 }, looks.textLine));
    const tallest = Math.max(
      heightFor(what, 56),
      heightFor(source, 18, 8),
      heightFor(step, 18),
      heightFor(where, 14, 8),
    );
    sheet.height(tallest, row);
    row += 1;
  }
  row = reviewAt;
  section(sheet, row, ["B", "F"], "What a reviewer checks");
  sheet.height(18, row);
  for (const words of reviewerChecks) {
    row += 1;
    sheet.put(`B${row}`, words, looks.textLine).merge(`B${row}:F${row}`).height(heightFor(words, 110), row);
  }
  row += 2;
  sheet.put(`B${row}`, "Calculation core, version", looks.label).paint(`C${row}`, looks.label);
  sheet.addIn(`D${row}`, call("METHODVERSION", result), fromAddIn(undefined, "left"));
  if (row !== end) throw new Error(`the print area ends at row ${end}, the text at ${row}`);
  return { sheet, names: {} };
}
