import { call } from "../blocks/add-in";
import { addressOf, columnOf, lettersOf, onSheet } from "../blocks/address";
import { barChart } from "../blocks/chart";
import { letterhead, writeColumnHeads, writeHeading, writePageHead } from "../blocks/heading";
import { type Page, Sheet } from "../blocks/sheet";
import { decimals, fromAddIn, looks, native, palette, style } from "../blocks/style";
import { between, fromList, text } from "../blocks/validation";
import { chosen, footer, sheets, variantColumns, variantCount, variantRows } from "./layout";
import { libraryNames, ofLibrary } from "./library";
import { amountPlaces, amounts, joints } from "./scenario";

/** Rows of the components: the joints first, whose lengths follow from the outline. */
const componentRows = { first: 9, joints: 3, last: 23, total: 24 } as const;

const firstAmount = columnOf("F");

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
  writePageHead(sheet, letterhead, ["B", "Q"], "Components", lead);
  sheet.heightOf(14.5, 5, chartAt + 30).height(30, first - 1);
  writeHeading(sheet, first - 3, ["B", "Q"], "Amounts, and the flow at 50 Pa that goes through them");
  writeColumnHeads(sheet, first - 1, "B", ["<where", "<component", "<<unit", "flow of one|at 50 Pa, m³/h"]);
  for (let index = 0; index < variantCount; index++) {
    const name = `IF(Variants!$B$${variantRows.outline + index}="","",Variants!$B$${variantRows.outline + index})`;
    sheet.formula(`${amountColumn(index)}${first - 1}`, name, looks.columnHead);
  }
  const flows = ["base|m³/h", "variant|m³/h", "of the|base’s limit", "of the|variant’s"];
  writeColumnHeads(sheet, first - 1, "N", flows);
  writeHeading(sheet, first - 3, ["S", "U"], "Handed to the add-in");
  writeColumnHeads(sheet, first - 1, "S", ["leakage", "at Pa", "n"]);
  for (let row = first; row <= last; row++) writeComponentRow(sheet, row);
  writeComponentSums(sheet);
  drawChart(sheet);
  addRules(sheet);
  return {
    sheet,
    names: {
      ComponentTotals: componentTotals,
      BaseComponents: onSheet(sheets.components, `N${first}:N${last}`),
      VariantComponents: onSheet(sheets.components, `O${first}:O${last}`),
    },
  };
}

/** The column in which a variant's amounts stand, by its place among the variants. */
function amountColumn(index: number): string {
  return lettersOf(firstAmount + index);
}

const totalCell = (index: number) => addressOf(componentRows.total - 1, firstAmount + index);

/** Flow at 50 Pa of all known components, a cell a variant. */
export const componentTotals = onSheet(sheets.components, `${totalCell(0)}:${totalCell(variantCount - 1)}`);

const { first, last, total } = componentRows;
const [check, allowed, left] = [total + 1, total + 2, total + 3];

/** Last row of the sums, their note not counted. */
const lastSum = left;

/** All components of each variant in one call, checked by the rows, beside what is allowed and what is left. */
function writeComponentSums(sheet: Sheet): void {
  const sum = style({ bold: true, top: palette.petrol });
  sheet
    .put(`B${total}`, "All known components at 50 Pa, m³/h", style({ align: "left" }, sum))
    .paint(`C${total}:E${total}`, sum);
  sheet.put(`B${check}`, "Check: the sum of the rows", looks.label).paint(`C${check}:E${check}`, looks.label);
  sheet.put(`B${allowed}`, "Allowed at 50 Pa, m³/h", looks.label).paint(`C${allowed}:E${allowed}`, looks.label);
  sheet
    .put(`B${left}`, "Left for unknown leaks, m³/h", style({ bold: true }, looks.label))
    .paint(`C${left}:E${left}`, looks.label);
  const range = (letter: string) => `$${letter}$${first}:$${letter}$${last}`;
  for (let index = 0; index < variantCount; index++) {
    const letter = amountColumn(index);
    const own = range(letter);
    // Text counts as nothing in a sum: what is no number goes to the add-in, which says so.
    const outline = variantRows.outline + index;
    const nothing = `AND(SUM(${own})=0,COUNT(${own})=SUMPRODUCT((${own}<>"")*1))`;
    // Without perimeter and storeys the joints have no length, and a sum would leave them out.
    const none = `IF(OR(Variants!N${outline}="",Variants!P${outline}=""),TRUE,${nothing})`;
    const flow = call("COMPONENTLEAKAGE", own, range("S"), range("T"), range("U"), "50");
    sheet.addIn(`${letter}${total}`, `IF(${none},"",${flow})`, fromAddIn(decimals(1)));
    const rows = `SUMPRODUCT(${own},${range("E")})`;
    const agrees = `IF(ABS(${rows}-${letter}${total})<=0.000000001*${letter}${total},"agrees","differs")`;
    sheet.formula(`${letter}${check}`, `IF(${letter}${total}="","",${agrees})`, native());
    const at = variantRows.allowed + index;
    sheet.formula(`${letter}${allowed}`, `IF(Variants!C${at}="","",Variants!C${at})`, native(decimals(1)));
    sheet.formula(
      `${letter}${left}`,
      `IF(Variants!N${at}="","",Variants!N${at})`,
      style({ bold: true }, native(decimals(1))),
    );
  }
  const limit = (which: "Base" | "Variant") => chosen(which, variantColumns.flow);
  for (const [letter, which, share] of [
    ["N", "Base", "P"],
    ["O", "Variant", "Q"],
  ] as const) {
    const all = chosen(which, variantColumns.known);
    sheet.formula(`${letter}${total}`, all, style({ bold: true, top: palette.petrol }, native(decimals(1))));
    const part = `IF(COUNT(${letter}${total},${limit(which)})<2,"",${letter}${total}/${limit(which)})`;
    sheet.formula(`${share}${total}`, part, style({ bold: true, top: palette.petrol }, native("0 %")));
    sheet.formula(`${letter}${allowed}`, limit(which), native(decimals(1)));
    sheet.formula(`${letter}${left}`, chosen(which, variantColumns.left), style({ bold: true }, native(decimals(1))));
  }
  const red = { font: { color: { rgb: palette.fail } } };
  sheet.when(`F${left}:O${left}`, `AND(ISNUMBER(F${left}),F${left}<0)`, red);
  sheet.when(`F${check}:M${check}`, `F${check}="differs"`, red);
  sheet.put(
    `B${left + 1}`,
    "A list of components is never complete: sockets, ducts, cracks and workmanship are in none of its rows. What is left over is what they may leak together.",
    looks.note,
  );
  sheet.merge(`B${left + 1}:Q${left + 1}`);
}

const amountsOf = (row: number) => `$${amountColumn(0)}${row}:$${amountColumn(variantCount - 1)}${row}`;

/** Where the joints of the first rows are, and how long they are, from perimeter and storeys. */
const jointRows: readonly (readonly [where: string, length: (perimeter: string, storeys: string) => string])[] = [
  ["Walls on the lowest floor", (perimeter) => perimeter],
  ["Walls at floors between", (perimeter, storeys) => `${perimeter}*(${storeys}-1)`],
  ["Walls to ceiling or roof", (perimeter) => perimeter],
];

/** One component: what it leaks, how much of it each variant has, what goes through it in base and variant. */
function writeComponentRow(sheet: Sheet, row: number): void {
  const joint = jointRows[row - first];
  const given = amounts[row - first - jointRows.length];
  if (joint) sheet.put(`B${row}`, joint[0], looks.label);
  else sheet.type(`B${row}`, amountPlaces[row - first - jointRows.length] ?? null, undefined, "left");
  sheet.type(`C${row}`, (joint ? joints[row - first] : given?.[0]) ?? null, undefined, "left");
  sheet.formula(`D${row}`, ofLibrary("unit", `C${row}`), looks.unit);
  sheet.formula(`E${row}`, ofLibrary("flow", `C${row}`), native(decimals(2)));
  for (let index = 0; index < variantCount; index++) {
    const place = `${amountColumn(index)}${row}`;
    if (joint) {
      const at = variantRows.outline + index;
      const [perimeter, storeys] = [`Variants!$N$${at}`, `Variants!$P$${at}`];
      const length = `IF(OR(${perimeter}="",${storeys}=""),"",${joint[1](perimeter, storeys)})`;
      sheet.formula(place, length, native("0.0;;"));
    } else {
      const amount = given?.[index + 1];
      sheet.type(place, amount || null, "0.0##");
    }
  }
  for (const [letter, which, share] of [
    ["N", "Base", "P"],
    ["O", "Variant", "Q"],
  ] as const) {
    const amount = `INDEX(${amountsOf(row)},${which}Index)`;
    const flow = `IF(${which}Index="","",IF(COUNT(${amount},$E${row})<2,"",${amount}*$E${row}))`;
    sheet.formula(`${letter}${row}`, flow, native("0.0;;"));
    const limit = chosen(which, variantColumns.flow);
    sheet.formula(
      `${share}${row}`,
      `IF(COUNT(${letter}${row},${limit})<2,"",${letter}${row}/${limit})`,
      native("0 %;;"),
    );
  }
  sheet.formula(`S${row}`, ofLibrary("handedLeakage", `C${row}`), native("0.0##"));
  sheet.formula(`T${row}`, ofLibrary("handedPressure", `C${row}`), native(decimals(0)));
  sheet.formula(`U${row}`, ofLibrary("exponent", `C${row}`), native("0.0###"));
}

const chartAt = lastSum + 4;

function drawChart(sheet: Sheet): void {
  writeHeading(sheet, chartAt, ["B", "Q"], "Flow at 50 Pa by component, base and variant");
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

function addRules(sheet: Sheet): void {
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
