import { onSheet } from "../blocks/address";
import { columnHeads, letterhead, pageHead, section } from "../blocks/heading";
import { type Page, Sheet } from "../blocks/sheet";
import { decimals, looks, native, palette, style } from "../blocks/style";
import type { Runs } from "./direction";
import { footer, sheets } from "./places";
import type { ResultPlaces } from "./result-places";
import { agreement, isOrdinary, shadowBlock } from "./shadow-places";
import { differenceFormat, differenceOf, type ShadowPlaces, shadowRun } from "./shadow-run";

const meansFirst = 8;

/** The main line once more by the spreadsheet's own functions, for a reader who has no add-in. */
export function shadowPage(runs: Runs, results: ResultPlaces): Page {
  const blocks = runs.map((_, index) => shadowBlock(index));
  const sheet = new Sheet(sheets.shadow, [1.5, 44, 9, 12, 12, 12, 12, 12, 11, 11, 11, 11, 11], palette.petrol, {
    orientation: "landscape",
    areas: [`B1:M${(blocks[0]?.title ?? 0) - 2}`, ...blocks.map(({ title, end }) => `B${title}:M${end}`)],
    titleRows: "1:4",
    footer,
  });
  const lead =
    "The same steps by native functions alone, from the typed readings to the mean, each beside the add-in’s figure: a reader without the add-in can follow and confirm it.";
  pageHead(sheet, letterhead, ["B", "M"], "The main line by native formulas", lead);
  sheet.heightOf(12.5, 5, blocks.at(-1)?.end ?? 5);
  const shadows = runs.map((run, index) => shadowRun(sheet, run, index));
  const confirmed = summary(sheet, runs, shadows, results);
  return { sheet, names: { ShadowConfirms: onSheet(sheets.shadow, confirmed) } };
}

/** The means of runs and directions, and whether everything confirms; the cell of that word. */
function summary(sheet: Sheet, runs: Runs, shadows: readonly ShadowPlaces[], results: ResultPlaces): string {
  const { units } = runs[0].form;
  section(sheet, 5, ["B", "M"], "Does it confirm the add-in?");
  columnHeads(sheet, 7, "B", ["<what it is", "", "native", "add-in", "difference", "outcome", "<<unit"]);
  const meanOf = (key: string, indices: readonly number[]) => {
    const cells = indices.map((index) => shadows[index]?.at(key) ?? "");
    return `IF(COUNT(${cells.join(",")})=0,"",AVERAGE(${cells.join(",")}))`;
  };
  const lines: readonly (readonly [label: string, native: string, compared: string, digits: number, unit: string])[] = (
    [
      ["n50", "Air change rate at 50 Pa", 4, "1/h"],
      ["q50", "Air leakage rate at 50 Pa", 1, units.flow],
    ] as const
  ).flatMap(([key, label, digits, unit], place) => {
    const row = meansFirst + 3 * place;
    const both = `IF(COUNT(D${row}:D${row + 1})=2,(D${row}+D${row + 1})/2,IF(OneDirection="accept",IF(COUNT(D${row}:D${row + 1})=1,SUM(D${row}:D${row + 1}),""),""))`;
    return [
      [
        `${label}, depressurization, mean of its runs`,
        meanOf(key, [0, 1]),
        results.cell(key, "depressurization"),
        digits,
        unit,
      ],
      [
        `${label}, pressurization, mean of its runs`,
        meanOf(key, [2, 3]),
        results.cell(key, "pressurization"),
        digits,
        unit,
      ],
      [`${label}, mean of both directions`, both, results.cell(key, "mean"), digits, unit],
    ] as const;
  });
  const [out, into] = [meanOf("q_pr", [0, 1]), meanOf("q_pr", [2, 3])];
  const limitedFlow = `IF(TargetDirections="depressurization",${out},IF(AND(ISNUMBER(${out}),ISNUMBER(${into})),(${out}+${into})/2,IF(OneDirection="accept",IF(ISNUMBER(${out}),${out},${into}),"")))`;
  const limited = [
    "What decides, in the quantity of the criterion",
    `IFERROR(${limitedQuantity(limitedFlow, units.in.flow / units.in.volume)},"")`,
    `IFERROR(${results.deciding},"")`,
    4,
    "",
  ] as const;
  [...lines, limited].forEach(([label, formula, compared, digits, unit], index) => {
    const row = meansFirst + index;
    sheet.put(`B${row}`, label, looks.label).put(`H${row}`, unit, looks.unit);
    sheet.formula(`D${row}`, formula, native(decimals(digits))).formula(`E${row}`, compared, native(decimals(digits)));
    sheet.formula(
      `F${row}`,
      `IF(COUNT(D${row}:E${row})<2,"",${differenceOf(`D${row}`, `E${row}`)})`,
      native(differenceFormat),
    );
    const same = `IF(ABS(D${row}/E${row}-1)<=${agreement},"confirms","differs")`;
    sheet.formula(`G${row}`, `IF(COUNT(D${row}:E${row})<2,"",IF(${isOrdinary},${same},"other technique"))`, native());
    sheet.paint(`B${row}:M${row}`, looks.label);
  });
  const limitedAt = meansFirst + lines.length;
  sheet.formula(`H${limitedAt}`, 'IFERROR(TargetUnit,"")', looks.unit);
  const means = `$G$${meansFirst}:$G$${limitedAt}`;
  sheet.when(means.replaceAll("$", ""), `G${meansFirst}="differs"`, {
    font: { bold: true, color: { rgb: palette.fail } },
  });
  const ranges = [means, ...shadows.flatMap(({ verdicts }) => verdicts)];
  const count = (word: string) => ranges.map((range) => `COUNTIF(${range},"${word}")`).join("+");
  const [all, verdict, note] = [6, limitedAt + 1, limitedAt + 3];
  const word = `IF(${count("differs")}>0,"differs",IF(${isOrdinary},IF(${count("confirms")}=0,"",IF(${count("incomplete")}>0,"incomplete","confirms")),"not for this technique"))`;
  sheet
    .put(`B${all}`, "Every figure, to nine digits", looks.strong)
    .formula(`G${all}`, word, style({ bold: true }, native()));
  sheet.formula(
    `H${all}`,
    `IF(${isOrdinary},${count("confirms")}&" figures confirm, "&(${count("differs")})&" differ","The technique chosen is """&TestTechnique&""": SLOPE and INTERCEPT are the ordinary line, so that its rows are not compared.")`,
    style({ wrap: false }, looks.unit),
  );
  sheet.paint(`B${all}:M${all}`, looks.label);
  sheet.put(`B${verdict}`, "Verdict by the plain rule, unrounded, against the limit", looks.label);
  const own = `D${limitedAt}`;
  const plain = `IF(AND(${isOrdinary},DecisionRule="plain",TargetDecimals="",TargetQuantity<>"leakage area per envelope area"),IF(COUNT(${own})=0,"",IF(${own}<=TargetLimit*(1+${agreement}),"pass","fail")),"another rule or quantity")`;
  sheet
    .formula(`D${verdict}`, `IFERROR(${plain},"")`, native())
    .formula(`E${verdict}`, `IFERROR(${results.verdict},"open")`, native());
  sheet.paint(`B${verdict}:M${verdict}`, looks.label);
  sheet.put(
    `B${note}`,
    "Differences are fractions. A figure confirms where both agree to nine digits. Without the add-in the columns of the add-in keep the values that were stored with the file. " +
      "Where the standard counts the viscosity of the air (ASTM E779 and its kin), so do these rows. Checks of validity and the budget of uncertainty have no shadow here.",
    looks.note,
  );
  sheet.merge(`B${note}:M${note + 1}`);
  return `G${all}`;
}

/** A flow at the criterion's pressure as the quantity that the criterion limits; blank for a leakage area, whose pressure is that of its definition. */
function limitedQuantity(flow: string, hours: number): string {
  const over = (size: string, factor = "") => `IF(${size}="","",IFERROR(${flow}${factor}/${size},""))`;
  const perFloor = `IF(TargetQuantity="per floor area",${over("FloorArea")},"")`;
  const perEnvelope = `IF(TargetQuantity="per envelope area",${over("EnvelopeArea")},${perFloor})`;
  return `IF(TargetQuantity="air change rate",${over("InternalVolume", hours === 1 ? "" : `*${Math.round(hours)}`)},${perEnvelope})`;
}
