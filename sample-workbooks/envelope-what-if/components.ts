import { onSheet } from "../blocks/address";
import { barChart } from "../blocks/chart";
import { columnHeads, letterhead, pageHead, section } from "../blocks/heading";
import { type Page, Sheet } from "../blocks/sheet";
import { looks, palette } from "../blocks/style";
import { between, fromList, text } from "../blocks/validation";
import { amountColumn, componentRows, componentTotals } from "./component-places";
import { componentRow } from "./component-row";
import { componentSums, lastSum } from "./component-sums";
import { libraryNames } from "./library";
import { footer, sheets, variantCount, variantRows } from "./places";

const { first, last } = componentRows;
const chartAt = lastSum + 4;

/** What the drawings show, with the amounts of each variant; the rest of the limit is for leaks that nobody has drawn. */
export function componentsPage(): Page {
  const sheet = new Sheet(
    sheets.components,
    [1.5, 25, 33, 7, 11, ...Array<number>(variantCount).fill(9.5), 10.5, 10.5, 10, 10, 2, 10, 10, 10],
    palette.petrol,
    {
      orientation: "landscape",
      areas: [`B1:Q${lastSum + 2}`, `B${chartAt}:Q${chartAt + 30}`],
      titleRows: "1:4",
      pages: 2,
      footer,
    },
  );
  const lead =
    "Amounts of each component in each variant. Lengths of the joints follow from the outlines. Choose a component from the library, or add one there.";
  pageHead(sheet, letterhead, ["B", "Q"], "Components", lead);
  sheet.heightOf(14.5, 5, chartAt + 30).height(30, first - 1);
  section(sheet, first - 3, ["B", "Q"], "Amounts, and the flow at 50 Pa that goes through them");
  columnHeads(sheet, first - 1, "B", ["<where", "<component", "<<unit", "flow of one|at 50 Pa, m³/h"]);
  for (let index = 0; index < variantCount; index++) {
    const name = `IF(Variants!$B$${variantRows.outline + index}="","",Variants!$B$${variantRows.outline + index})`;
    sheet.formula(`${amountColumn(index)}${first - 1}`, name, looks.columnHead);
  }
  const flows = ["base|m³/h", "variant|m³/h", "of the|base’s limit", "of the|variant’s"];
  columnHeads(sheet, first - 1, "N", flows);
  section(sheet, first - 3, ["S", "U"], "Handed to the add-in");
  columnHeads(sheet, first - 1, "S", ["leakage", "at Pa", "n"]);
  for (let row = first; row <= last; row++) componentRow(sheet, row);
  componentSums(sheet);
  chart(sheet);
  validate(sheet);
  return {
    sheet,
    names: {
      ComponentTotals: componentTotals,
      BaseComponents: onSheet(sheets.components, `N${first}:N${last}`),
      VariantComponents: onSheet(sheets.components, `O${first}:O${last}`),
    },
  };
}

function chart(sheet: Sheet): void {
  section(sheet, chartAt, ["B", "Q"], "Flow at 50 Pa by component, base and variant");
  const column = (letter: string) => onSheet(sheets.components, `${letter}${first}:${letter}${last}`);
  const bars = [
    { name: "Base", values: column("N"), colour: palette.petrol },
    { name: "Variant", values: column("O"), colour: palette.inputEdge },
  ];
  const anchor = { from: { row: chartAt, col: 1 }, to: { row: chartAt + 30, col: 17 } };
  sheet.chart(
    barChart("lying", column("C"), bars, anchor, {
      axisTitle: "flow at 50 Pa, m³/h",
      alternative: "Bars of the flow at 50 Pa through each component, of the base and of the variant.",
      textSize: 9,
      format: "0",
    }),
  );
}

function validate(sheet: Sheet): void {
  const typedFrom = first + componentRows.joints;
  sheet.validate(
    text(`B${typedFrom}:B${last}`, "Where", "A word on where the component is, for your own use.", 60),
    fromList(`C${first}:C${last}`, libraryNames, "Component", "A row of the sheet Library, by its name."),
    between(
      `${amountColumn(0)}${typedFrom}:${amountColumn(variantCount - 1)}${last}`,
      0,
      100000,
      "Amount",
      "Area, length or number, in the unit of the row. Blank or 0: none of it in this variant.",
    ),
  );
}
