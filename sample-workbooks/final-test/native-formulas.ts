import { call, writeSpillingCall } from "../blocks/add-in";
import { onSheet } from "../blocks/address";
import { letterhead, writeColumnHeads, writeHeading, writePageHead } from "../blocks/heading";
import { type Page, Sheet } from "../blocks/sheet";
import { decimals, fromAddIn, looks, native, palette, style } from "../blocks/style";
import { footer, readingRows, type ResultPlaces, sheets } from "./layout";
import { agreement, isOrdinary, nativeBlock, nativeLineCount, nativeLines, onRun } from "./native-lines";
import { furtherFlow } from "./readings";
import type { RunPlaces, Runs } from "./run";

const meansFirst = 8;

/** The main line once more by the spreadsheet's own functions, for a reader who has no add-in. */
export function nativeFormulasPage(runs: Runs, results: ResultPlaces): Page {
  const blocks = runs.map((_, index) => nativeBlock(index));
  const sheet = new Sheet(
    sheets.shadow,
    [1.5, runs[0].form.units.system === "SI" ? 52 : 40, 9, 11.5, 11.5, 11.5, 11.5, 12, 11, 11, 10.5, 10.5, 11],
    palette.petrol,
    {
      orientation: "landscape",
      // The steps of each run are for the screen, where their formulas can be read.
      areas: [`B1:M${(blocks[0]?.title ?? 0) - 2}`],
      pages: 1,
      footer,
      workingPaper: true,
    },
  );
  const lead =
    "The same steps by native functions alone, from the typed readings to the mean, each beside the add-in’s figure: a reader without the add-in can follow and confirm it.";
  writePageHead(sheet, letterhead, ["B", "M"], "The main line by native formulas", lead);
  sheet.heightOf(11.9, 5, blocks.at(-1)?.end ?? 5);
  const nativeRuns = runs.map((run, index) => writeRun(sheet, run, index));
  const confirmed = writeSummary(sheet, runs, nativeRuns, results);
  return { sheet, names: { ShadowConfirms: onSheet(sheets.shadow, confirmed) } };
}

/** The means of runs and directions, and whether everything confirms; the cell of that word. */
function writeSummary(sheet: Sheet, runs: Runs, nativeRuns: readonly NativePlaces[], results: ResultPlaces): string {
  const { units } = runs[0].form;
  writeHeading(sheet, 5, ["B", "M"], "Does it confirm the add-in?");
  writeColumnHeads(sheet, 7, "B", ["<what it is", "", "native", "add-in", "difference", "outcome", "<<unit"]);
  const meanOf = (key: string, indices: readonly number[]) => {
    const cells = indices.map((index) => nativeRuns[index]?.at(key) ?? "");
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
  const ranges = [means, ...nativeRuns.flatMap(({ verdicts }) => verdicts)];
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
      "Where the standard counts the viscosity of the air (ASTM E779 and its kin), so do these rows. The checks of validity and the budget of uncertainty are not repeated here.",
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

/** A difference as a fraction; none at all is a plain 0. */
const differenceFormat = '0.0E+0;"−"0.0E+0;0';

/** Rounded where only the order of the arithmetic differs. */
function differenceOf(one: string, other: string): string {
  return `ROUND(${one}/${other}-1,10)`;
}

interface NativePlaces {
  readonly at: (key: string) => string;
  /** Ranges that hold "confirms" or "differs". */
  readonly verdicts: readonly [string, string];
}

/** One run by native functions: its lines, each beside the add-in's figure, and its readings with their logarithms. */
function writeRun(sheet: Sheet, run: RunPlaces, index: number): NativePlaces {
  const { title, lines: first, readingHeads, readings, last } = nativeBlock(index);
  const { units } = run.form;
  const name = `${run.direction.charAt(0).toUpperCase()}${run.direction.slice(1)}${run.run === 1 ? "" : ", second run"}`;
  writeHeading(sheet, title, ["B", "M"], name);
  writeColumnHeads(sheet, title + 1, "B", [
    "<what it is",
    "<symbol",
    "native",
    "add-in",
    "difference",
    "outcome",
    "<<unit",
    "",
    "<how",
  ]);
  sheet.paint(`K${title + 1}:M${title + 1}`, looks.columnHead);
  const lines = nativeLines(run, index);
  if (lines.length !== nativeLineCount) throw new Error(`${lines.length} lines where the block has ${nativeLineCount}`);
  const made = `COUNTA(${run.readings})>0`;
  lines.forEach(({ label, shown, formula, compared, digits, unit, how, ofLine }, place) => {
    const row = first + place;
    sheet.rich(`B${row}`, label, looks.label).rich(`C${row}`, shown, looks.label);
    sheet.formula(`D${row}`, `IF(${made},IFERROR(${formula},NA()),"")`, native(decimals(digits)));
    sheet.rich(`H${row}`, unit, looks.unit).rich(`J${row}`, how, looks.unit).paint(`B${row}:M${row}`, looks.label);
    if (compared === undefined) return;
    sheet.formula(`E${row}`, `IF(${made},${compared},"")`, native(decimals(digits)));
    const other = ofLine ? `IF(${isOrdinary},${comparisonWord(row)},"other technique")` : comparisonWord(row);
    sheet.formula(
      `F${row}`,
      `IF(COUNT(D${row}:E${row})<2,"",${differenceOf(`D${row}`, `E${row}`)})`,
      native(differenceFormat),
    );
    sheet.formula(`G${row}`, `IF(${made},${other},"")`, native());
  });
  const there = onRun(run);
  const flow = units.flow;
  writeColumnHeads(sheet, readingHeads, "B", [
    "<reading, and whether it takes part",
    "",
    "induced,|native|Pa",
    "|INDUCED-|PRESSURE",
    `indicated,|native|${flow}`,
    "|by|FANFLOW",
    `envelope,|native|${flow}`,
    "|as on|its sheet",
    "|ln Δp|native",
    "|ln q|native",
    "largest|difference|",
    "|outcome|",
  ]);
  const [factor, baseline] = ["k_q", "dp0"].map((key) => `$D$${first + lines.findIndex((line) => line.key === key)}`);
  const range = (letter: string) => there(`${letter}${readingRows.first}:${letter}${readingRows.last}`);
  const fan = call("FANFLOW", `IF(${range("F")}="","",${range("F")})`, ...["G", "H", "I", "J"].map(range));
  writeSpillingCall(
    sheet,
    `G${readings}:G${last}`,
    `IF(${made},${fan},"")`,
    () => fromAddIn(decimals(1)),
    run.form.readings !== undefined,
  );
  for (let row = readings; row <= last; row++) {
    const reading = readingRows.first + row - readings;
    const cell = (letter: string) => there(`${letter}${reading}`);
    const [pressure, fanPressure] = [cell("D"), cell("F")];
    // Text instead of a number must not leave a reading out; whoever sets its use to "no" does.
    const without = `IF(OR(${cell("C")}="no",COUNTA(${pressure},${fanPressure})=0),"",NA())`;
    const typed = (formula: string) => `IF(COUNT(${pressure},${fanPressure})<2,${without},${formula})`;
    sheet.formula(
      `B${row}`,
      `IF(${cell("D")}="","",${row - readings + 1}&IF(${cell("C")}="no",": left out",""))`,
      looks.label,
    );
    sheet.formula(`D${row}`, typed(`IFERROR(${cell("D")}-${baseline},NA())`), native(decimals(2)));
    sheet.formula(`E${row}`, typed(cell("K")), native(decimals(2)));
    sheet.formula(
      `F${row}`,
      typed(
        `IFERROR(IF(AND(${cell("F")}>=${cell("I")},${cell("F")}<=${cell("J")}),${cell("G")}*${cell("F")}^${cell("H")},NA()),NA())`,
      ),
      native(decimals(1)),
    );
    sheet.formula(`H${row}`, typed(`(F${row}+SUM(${there(furtherFlow(reading))}))*${factor}`), native(decimals(1)));
    sheet.formula(`I${row}`, typed(cell("N")), native(decimals(1)));
    const log = (value: string) => typed(`IF(${cell("C")}="no","",LN(ABS(${value})))`);
    sheet
      .formula(`J${row}`, log(`D${row}`), native(decimals(5)))
      .formula(`K${row}`, log(`H${row}`), native(decimals(5)));
    const pairs = [
      ["D", "E"],
      ["F", "G"],
      ["H", "I"],
    ] as const;
    const largest = pairs.map(([one, other]) => `ABS(${differenceOf(`${one}${row}`, `${other}${row}`)})`).join(",");
    sheet.formula(`L${row}`, typed(`IF(COUNT(D${row}:I${row})<6,"",MAX(${largest}))`), native(differenceFormat));
    const exact = pairs.map(([one, other]) => `ABS(${one}${row}/${other}${row}-1)<=${agreement}`).join(",");
    sheet.formula(
      `M${row}`,
      typed(`IF(COUNT(D${row}:I${row})<6,"incomplete",IF(AND(${exact}),"confirms","differs"))`),
      native(),
    );
    sheet.paint(`B${row}:M${row}`, looks.label);
  }
  const verdicts = [`$G$${first}:$G$${first + lines.length - 1}`, `$M$${readings}:$M$${last}`] as const;
  for (const cells of verdicts)
    sheet.when(cells.replaceAll("$", ""), `${cells.replaceAll("$", "").split(":")[0]}="differs"`, {
      font: { bold: true, color: { rgb: palette.fail } },
    });
  const at = (key: string) => `$D$${first + lines.findIndex((line) => line.key === key)}`;
  return { at, verdicts };
}

function comparisonWord(row: number): string {
  const same = `ABS(D${row}/E${row}-1)<=${agreement}`;
  return `IF(COUNT(D${row}:E${row})<2,"incomplete",IF(${same},"confirms","differs"))`;
}
