import { quoted } from "../blocks/add-in";
import { onSheet } from "../blocks/address";
import { firm, letterhead, trade, writeHeading, writePageHead } from "../blocks/heading";
import { requireAddIn } from "../blocks/needs-add-in";
import { writeFactList, writeLegend } from "../blocks/overview";
import { type Page, Sheet } from "../blocks/sheet";
import { dateFormat, input, looks, native, palette, style } from "../blocks/style";
import { countOf } from "../blocks/typed-cells";
import { day, fromList, text } from "../blocks/validation";
import { comparisonCells, comparisonCount, writeComparison, writeComparisonSummary } from "./comparison";
import { footer, sheets, variantColumns } from "./layout";
import { base, project, remark, variant } from "./scenario";

const rows = { facts: 6, choice: 11, words: 15, comparison: 21 } as const;
const legendAt = rows.comparison + comparisonCount + 3;

/** One page: which variants are compared, what differs in plain words, the figures, the limit against the known components. */
export function overviewPage(): Page {
  const lastRow = legendAt + 4;
  const sheet = new Sheet(sheets.overview, [1.5, 27.5, 18.5, 18.5, 10.5, 20, 2, 46, 16, 12], palette.copper, {
    orientation: "portrait",
    areas: [`B1:F${lastRow}`],
    pages: 1,
    footer,
    footerSize: 8,
  });
  writePageHead(sheet, letterhead, ["B", "F"], "Airtightness before building", "");
  sheet.heightOf(14.5, 5, lastRow);
  writeFacts(sheet);
  writeChoice(sheet);
  writeSentences(sheet, rows.words, rows.comparison);
  writeComparison(sheet, rows.comparison);
  const summary = writeComparisonSummary(sheet, rows.comparison);
  explainWorkbook(sheet);
  const version = requireAddIn(sheet, {
    columns: ["B", "F"],
    lead: quoted("What the envelope may leak, and what it will: one form of the house against another."),
    result: variantColumns.flow,
    waiting: [`B${rows.words}:F${legendAt - 1}`, summary],
  });
  const cell = (place: string) => onSheet(sheets.overview, place);
  return {
    sheet,
    names: {
      ...version,
      Summary: cell(summary),
      House: cell(`C${rows.facts}`),
      Firm: cell(`F${rows.facts + 1}`),
      TradeLine: cell(`F${rows.facts + 2}`),
      Remark: cell(`F${rows.facts + 3}`),
      BaseName: cell(`C${rows.choice}`),
      VariantName: cell(`C${rows.choice + 1}`),
      BaseIndex: cell(`E${rows.choice}`),
      VariantIndex: cell(`E${rows.choice + 1}`),
    },
  };
}

function writeFacts(sheet: Sheet): void {
  writeHeading(sheet, rows.facts - 1, ["B", "F"], "Project");
  const left = [
    ["House", project.name],
    ["Place", project.address],
    ["Client", project.client],
    ["Estimated by", project.estimator],
  ] as const;
  const right = [
    ["Day", project.day],
    ["Firm", firm],
    ["Trade", trade],
    ["Remark on every sheet", remark],
  ] as const;
  const wrapped = (format?: string) => style({ wrap: true }, input(format, "left"));
  writeFactList(
    sheet,
    rows.facts,
    ["B", "C", "D"],
    left.map(([label, value]) => [label, value, wrapped()] as const),
  );
  right.forEach(([label, value], index) => {
    const row = rows.facts + index;
    sheet.put(`E${row}`, label, style({ indent: 1, align: "left", wrap: true }, looks.label));
    sheet.put(`F${row}`, value, wrapped(index === 0 ? dateFormat : undefined));
  });
  const last = rows.facts + 3;
  sheet.height(25, rows.facts + 1, last);
  sheet.validate(
    text(`C${rows.facts}:D${last}`, "Project", "The house stands at the top of every sheet."),
    day(`F${rows.facts}`, "Day", "Of this estimate."),
    text(
      `F${rows.facts + 1}:F${last}`,
      "Firm",
      "Firm, trade and remark stand on every sheet; an empty remark stands on none.",
      60,
    ),
  );
}

function writeChoice(sheet: Sheet): void {
  for (const [offset, label, name, words] of [
    [0, "Base", base, "a row of the sheet Variants"],
    [1, "Variant, set against the base", variant, "choose another: all follows"],
  ] as const) {
    const row = rows.choice + offset;
    const typed = `C${row}`;
    sheet.put(`B${row}`, label, looks.strong).put(typed, name, style({ bold: true }, input(undefined, "left")));
    sheet.merge(`${typed}:D${row}`);
    const found = `IF(${countOf(variantColumns.name, typed)}=1,MATCH(${typed},${variantColumns.name},0),"")`;
    sheet.formula(
      `E${row}`,
      `IF(${typed}="","",${found})`,
      style({ size: 8, colour: palette.grey }, native('"row "0', "center")),
    );
    const missing = `IF(OR(${typed}="",E${row}<>""),"${words}","no variant, or two, of this name")`;
    sheet.formula(`F${row}`, missing, style({ size: 8, colour: palette.grey, vertical: "center" }));
  }
  sheet.validate(
    fromList(
      `C${rows.choice}:D${rows.choice + 1}`,
      variantColumns.name,
      "Variant",
      "A row of the sheet Variants, by its name.",
    ),
  );
}

function explainWorkbook(sheet: Sheet): void {
  writeLegend(
    sheet,
    { at: legendAt, others: "E", right: "F" },
    "An estimate, not a test result: only a test shows what the house leaks. Local code and the certifier decide which limit holds. Every figure from outside carries its source and a mark on its sheet; Notes says what was assumed.",
    3,
  );
}

/** Lines that each sentence needs at its longest: the third one may carry a caution. */
const sentenceHeights = [15, 25, 37, 25, 15];

/** The difference in sentences; each stays away while its figures are not there. */
function writeSentences(sheet: Sheet, at: number, comparisonAt: number): void {
  writeHeading(sheet, at - 1, ["B", "F"], "In plain words");
  const cell = (name: Parameters<typeof comparisonCells>[1]) => comparisonCells(comparisonAt, name);
  const [volume, envelope] = [cell("volume"), cell("envelope")];
  const [criterion, flow] = [cell("criterion"), cell("flow")];
  const [left, share] = [cell("left"), cell("share")];
  const [fan, opening] = [cell("fan"), cell("opening")];
  const [energy, cost] = [cell("energy"), cell("cost")];
  const of = (place: string, noun: string) => `IF(${place}="the same","the same ${noun}",${place}&" ${noun}")`;
  const quoted = (name: string) => `"“"&${name}&"”"`;
  // The share is worth no more than the amounts that it is made of.
  const caution =
    'IF(VariantCaution="",""," "&VariantCaution)&' +
    'IF(OR(BaseCaution="",BaseIndex=VariantIndex),"",' +
    'IF(VariantCaution=""," Base: "&BaseCaution," The base’s amounts too: see Components."))';
  const sentences = [
    [
      `OR(${volume.words}="",${envelope.words}="")`,
      `${quoted("VariantName")}&" against "&${quoted("BaseName")}&": "&${of(volume.words, "volume")}&", "&${of(envelope.words, "envelope area")}&"."`,
    ],
    [
      `${flow.words}=""`,
      `IF(${criterion.base}=${criterion.variant},"The limit is the same ("&${criterion.base}&")","The limit is another one ("&${criterion.variant}&" instead of "&${criterion.base}&")")&": it allows "&ROUND(${flow.variant},0)&" m³/h at 50 Pa instead of "&ROUND(${flow.base},0)&IF(${flow.words}="the same","",", "&${flow.words})&"."`,
    ],
    [
      `OR(${left.variant}="",${share.variant}="")`,
      `IF(${left.variant}<0,"The known components alone exceed the limit by "&ROUND(-${left.variant},0)&" m³/h: better windows, tighter joints or another limit are needed.","The known components take "&ROUND(100*${share.variant},0)&" % of it; "&ROUND(${left.variant},0)&" m³/h are left for leaks that nobody has drawn"&IF(${left.base}="",".",", "&ROUND(${left.base},0)&" m³/h in the base."))&${caution}`,
    ],
    [
      `${fan.variant}=""`,
      `"The fan must give "&ROUND(${fan.variant},0)&" m³/h at the highest pressure of the test, with the reserve"&IF(${opening.variant}="none","; no opening of the device gives it.",IF(${opening.variant}="",".","; opening “"&${opening.variant}&"”."))`,
    ],
    [
      `OR(${energy.words}="",${cost.words}="")`,
      `"By the model "&UsedModel&", infiltration takes "&ROUND(${energy.variant},0)&" kWh a season ("&${energy.words}&"), "&ROUND(${cost.variant},0)&" "&Currency&"."`,
    ],
  ] as const;
  sentences.forEach(([missing, sentence], index) => {
    const row = at + index;
    sheet
      .formula(`B${row}`, `IF(${missing},"",${sentence})`, style({ wrap: true, vertical: "top" }))
      .merge(`B${row}:F${row}`);
    sheet.height(sentenceHeights[index] ?? 15, row);
  });
  sheet.when(`B${at + 2}:F${at + 2}`, 'VariantCaution&BaseCaution<>""', {
    font: { bold: true, color: { rgb: palette.fail } },
  });
}
