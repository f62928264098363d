import { call } from "../blocks/add-in";
import { type ExampleBlock, exampleWidths, writeExample } from "../blocks/example";
import { letterhead, writeColumnHeads, writeHeading, writePageHead } from "../blocks/heading";
import { heightFor, type Page, Sheet } from "../blocks/sheet";
import { fromAddIn, looks, palette, style } from "../blocks/style";
import { houseFacts } from "./cover";
import { outlineCorners } from "./envelope";
import { instrumentCells } from "./firm";
import { footer, sheetOf, sheets } from "./layout";
import { preparationPlaces } from "./preparation";
import { runCellsTyped } from "./readings";
import { roomTable } from "./rooms";

interface MethodStep {
  readonly step: string;
  readonly where: string;
  /** Marked for subscripts and superscripts, see runsOf. */
  readonly what: string;
  readonly source: string;
  readonly mark: "C" | "M" | "–";
}

const methodSteps: readonly MethodStep[] = [
  {
    step: "Volume",
    where: "Rooms",
    what: "Area × mean clear height, summed over the rooms. The convention is written beside it: room by room, or whole internal without deducting partitions. A criterion that means the other one gets no verdict.",
    source: "Passive-house practice; ISO 9972:2015, internal volume",
    mark: "C",
  },
  {
    step: "Envelope, floor area",
    where: "Rooms",
    what: "Outlines from their corners; walls as perimeter × height. Walls and floors to the ground and to neighbours count. Floor area: the rooms.",
    source: "ISO 9972:2015, reference values",
    mark: "M",
  },
  {
    step: "Air densities",
    where: "Conditions",
    what: "ρ = (p − 0.37802 · p_{v}) / (287.055 · T), with the partial vapour pressure from temperature and relative humidity.",
    source: "ISO 9972:2015, density of air",
    mark: "M",
  },
  {
    step: "Baseline",
    where: "Baseline pressure",
    what: "The mean of the readings before and that of the readings after, averaged, sign kept. A blank cell is no reading, a 0 is one.",
    source: "ISO 9972:2015, zero-flow pressure",
    mark: "M",
  },
  {
    step: "Induced pressure",
    where: "column K",
    what: "Each reading less the baseline. A reading whose sign contradicts the direction is an error with its row.",
    source: "ISO 9972:2015, induced pressure difference",
    mark: "M",
  },
  {
    step: "Indicated flow",
    where: "column L",
    what: "c · p^{m} of the opening in use, by a native formula that the sheet Native formulas compares with FANFLOW. Outside the valid range of its certificate the row shows #N/A. Where several fans run at the same time, their flows are added.",
    source: "certificate of the flow device",
    mark: "–",
  },
  {
    step: "Flow at the fan",
    where: "column M",
    what: "× √(ρ_{cal} / ρ at the device): air from indoors when depressurizing, from outdoors when pressurizing.",
    source: "orifice equation; certificate",
    mark: "C",
  },
  {
    step: "Flow through the envelope",
    where: "column N",
    what: "By the balance of mass: × ρ_{i} / ρ_{e} when depressurizing, × ρ_{e} / ρ_{i} when pressurizing.",
    source: "ISO 9972:2015, air leakage rate",
    mark: "C",
  },
  {
    step: "Line",
    where: "beside each run",
    what: "The technique chosen on Criteria; ordinary least squares of ln q on ln Δp by ISO 9972: C, n, r², limits with Student’s t and N − 2 degrees of freedom.",
    source: "ISO 9972:2015, annex on the uncertainty of the line",
    mark: "M",
  },
  {
    step: "Residuals",
    where: "columns O to T",
    what: "Each reading against the line; leverage, Cook’s distance, and what n and q_{50} become without the reading.",
    source: "Cook, Technometrics 19 (1977)",
    mark: "C",
  },
  {
    step: "Reference conditions",
    where: "beside each run",
    what: "C_{L} = C · (ρ/ρ_{0})^{1−n}; ρ is the density of the air that goes through the leaks, ρ_{0} that of dry air at 20 °C and 101 325 Pa.",
    source: "ISO 9972:2015, air leakage coefficient",
    mark: "M",
  },
  {
    step: "Results at 50 Pa",
    where: "beside each run; Results",
    what: "q_{50} = C_{L} · 50^{n}; n_{50} = q_{50}/V; q_{E50} = q_{50}/A_{E}; q_{F50} = q_{50}/A_{F}.",
    source: "ISO 9972:2015, derived quantities",
    mark: "C",
  },
  {
    step: "Leakage areas",
    where: "beside each run; Results",
    what: "q/3600/C_{d} · √(ρ_{0}/2)/√p: effective at 4 Pa with C_{d} 1; ISO at 10 Pa with C_{d} 1; equivalent at 10 Pa with C_{d} 0.611. The definition changes the number by a factor of two.",
    source: "ISO 9972:2015; ASHRAE Fundamentals, ch. 16",
    mark: "C",
  },
  {
    step: "Whole test in one call",
    where: "beside each run",
    what: "From the pressure readings, the indicated flows (column L) and the settings, in one call. The line through the steps must agree with it to nine digits, or no verdict is given.",
    source: "this workbook",
    mark: "–",
  },
  {
    step: "Mean of directions",
    where: "Results",
    what: "Of the derived results, not of C and n. Several runs of a direction are averaged first, and none is picked; two that are further apart than Criteria allows give no verdict. One direction alone counts only where it is accepted on Criteria and by the criterion.",
    source: "ISO 9972:2015; passive-house practice",
    mark: "C",
  },
  {
    step: "Checks of validity",
    where: "Validity",
    what: "By the standard chosen, every run in a table of its own: measured, limit, outcome, clause, what to do. Each clause has its mark; one from memory names the words to look for.",
    source: "the standard chosen on Criteria",
    mark: "–",
  },
  {
    step: "Uncertainty",
    where: "Uncertainty",
    what: "Budget of the first runs, a row a source; what both directions share is added with its sign before squaring. Two runs of a direction add the scatter of their mean, half their difference with one degree of freedom; the part that is a run’s own scatter is counted twice, which errs on the cautious side. U: at the confidence chosen.",
    source: "JCGM 100:2008, 4.2.3, G.4.1",
    mark: "C",
  },
  {
    step: "Verdict",
    where: "Results",
    what: "By the decision rule chosen on Criteria. Plain: the result must not exceed the limit. Guarded: the limits of the result, result·exp(±U/result), as the budget has them. Beside it the probability that the true value meets the limit. Rounding before comparing is the programme’s rule, and goes with the plain rule alone.",
    source: "JCGM 106:2012; ASTM E29",
    mark: "C",
  },
  {
    step: "Without the add-in",
    where: "Native formulas",
    what: "The main line once more by SLOPE, INTERCEPT, RSQ, STEYX, DEVSQ and T.INV.2T over the logarithms, each figure beside the add-in’s. For the ordinary technique.",
    source: "this workbook",
    mark: "–",
  },
];

const reviewerChecks: readonly string[] = [
  "The volume: a room forgotten, a deduction left out, the convention that the criterion means. The share of the outline that the rooms fill shows the first at a glance.",
  "The sign of the baseline, and readings typed with the sign of their direction. An unsigned reading changes the result, and no statistic notices.",
  "The opening beside each reading, and its c, m and range against the certificate; the density the certificate is for.",
  "Temperatures on the right side of the wall: swapped, they shift the flow by about 5 % in winter.",
  "Humidity: where none is typed, 50 % is assumed, in the steps and in the whole test alike; the conditions say so.",
  "Residuals without a trend; no single reading that moves n or q50 more than the others do.",
  "Both directions within about 10 % of each other. A larger gap points to something that opens or closes with the sign of the pressure.",
  "The edition of the criterion, its volume, its rounding, and who decides: local code and the certifier.",
  "How the building was prepared: each opening closed, sealed or left as it was, as the criterion asks.",
  "Readings that are left out, and the reason beside each; runs that were not averaged because they were never typed in.",
  "What the budget takes as known: the certificates behind the numbers, and the rows that carry most of the variance.",
];

/** What each step does, where it stands, where it comes from; what a reviewer looks at; the version of the method behind a result. */
export function methodPage(result: string, pages: readonly Sheet[]): Page {
  const end = 7 + methodSteps.length + reviewerChecks.length + 3;
  const reviewAt = 7 + methodSteps.length + 1;
  const sheet = new Sheet(sheets.method, [1.5, 19, 14, 59, 21, 6.5, ...exampleWidths], palette.petrol, {
    orientation: "portrait",
    areas: [`B1:F${reviewAt - 1}`, `B${reviewAt}:F${end}`],
    titleRows: "1:4",
    pages: 2,
    footer,
    workingPaper: true,
  });
  const lead =
    "Each step stands in a cell of its own. C: read in a published text. M: from memory of the standard; check your own copy.";
  writePageHead(sheet, letterhead, ["B", "F"], "Notes on the method", lead);
  writeHeading(sheet, 5, ["B", "F"], "Step by step");
  writeColumnHeads(sheet, 6, "B", ["<step", "<where", "<what it does", "<<source", "<<mark"]);
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
      heightFor(source, 15.5, 8.5),
      heightFor(step, 18),
      heightFor(where, 14, 8),
    );
    sheet.height(tallest, row);
    row += 1;
  }
  row = reviewAt;
  writeHeading(sheet, row, ["B", "F"], "What a reviewer checks");
  sheet.height(18, row);
  for (const words of reviewerChecks) {
    row += 1;
    sheet.put(`B${row}`, words, looks.textLine).merge(`B${row}:F${row}`).height(heightFor(words, 110), row);
  }
  row += 2;
  sheet.put(`B${row}`, "Calculation core, version", looks.label).paint(`C${row}`, looks.label);
  sheet.addIn(`D${row}`, call("METHODVERSION", result), fromAddIn(undefined, "left"));
  if (row !== end) throw new Error(`the print area ends at row ${end}, the text at ${row}`);
  return { sheet, names: writeExample(sheet, exampleBlocks, pages) };
}

const runs = (["depressurization", "pressurization"] as const).flatMap((direction) =>
  ([1, 2] as const).map((run) => sheetOf(direction, run)),
);

const { first, last } = roomTable;

/** What the example of the final test fills. */
const exampleBlocks: readonly ExampleBlock[] = [
  { label: "House", sheet: sheets.cover, texts: houseFacts, kind: "house" },
  { label: "Rooms", sheet: sheets.rooms, numbers: [`D${first}:E${last}`, `G${first}:G${last}`], kind: "result" },
  { label: "Outlines", sheet: sheets.rooms, numbers: outlineCorners, kind: "result" },
  ...runs.flatMap((sheet): ExampleBlock[] => [
    { label: "Readings", sheet, numbers: runCellsTyped.readings, kind: "result" },
    { label: "Baseline readings", sheet, numbers: runCellsTyped.baselines, kind: "result" },
  ]),
  { label: "Sealing list", sheet: sheets.preparation, texts: [preparationPlaces.sealingList], kind: "report" },
  {
    label: "Instruments",
    sheet: sheets.firm,
    texts: [instrumentCells.words],
    numbers: [instrumentCells.days],
    kind: "report",
  },
];
