import { call, quoted } from "../blocks/add-in";
import { onSheet } from "../blocks/address";
import { barChart } from "../blocks/chart";
import { firm, letterhead, trade, writeColumnHeads, writeHeading, writePageHead } from "../blocks/heading";
import { requireAddIn } from "../blocks/needs-add-in";
import { writeFactList } from "../blocks/overview";
import { type Page, Sheet } from "../blocks/sheet";
import { decimals, fromAddIn, looks, native, palette, style } from "../blocks/style";
import { countOf } from "../blocks/typed-cells";
import { text } from "../blocks/validation";
import { columnOfHouses as column, sheets } from "./layout";
import { footer, programme, remark, testers } from "./scenario";

const rows = { facts: 6, counts: 13, testers: 13, spread: 29, list: 62 } as const;
const classes = { count: 11, width: 0.1 } as const;
/** How many reports the list holds: a page. */
const listLength = 36;
const lastRow = rows.list + listLength;

/** Two pages: what the round as a whole shows, and which reports to look at first, with the reason. */
export function overviewPage(): Page {
  const sheet = new Sheet(sheets.overview, [1.5, 30, 8, 10.5, 12.5, 1.5, 22.5, 9, 10, 13, 10.5], palette.copper, {
    orientation: "portrait",
    areas: [`B1:K${rows.list - 2}`, `B${rows.list - 1}:K${lastRow}`],
    pages: 2,
    titleRows: "1:4",
    footer,
  });
  const lead =
    "Every report recomputed from its own readings, judged by the same rules, and set in the order in which to look at them.";
  writePageHead(sheet, letterhead, ["B", "K"], "Programme review", "");
  sheet.heightOf(14.5, 5, lastRow);
  writeFacts(sheet);
  writeCounts(sheet);
  writeTesterTable(sheet);
  writeSpread(sheet);
  writeFirstToLookAt(sheet, rows.list);
  const version = requireAddIn(sheet, {
    columns: ["B", "K"],
    lead: quoted(lead),
    // The fit of one direction: what comes later would add a step between readings and verdict.
    result: column("nDown"),
    waiting: [`B${rows.counts}:K${lastRow}`],
  });
  const cell = (place: string) => onSheet(sheets.overview, place);
  return {
    sheet,
    names: {
      ...version,
      Summary: cell(`B${rows.counts}:D${rows.counts + 14}`),
      House: cell(`C${rows.facts}`),
      Firm: cell(`H${rows.facts}`),
      TradeLine: cell(`H${rows.facts + 1}`),
      Remark: cell(`H${rows.facts + 2}`),
    },
  };
}

function writeFacts(sheet: Sheet): void {
  writeHeading(sheet, rows.facts - 1, ["B", "E"], "Programme");
  writeHeading(sheet, rows.facts - 1, ["G", "K"], "Review");
  const left = [
    ["Programme", programme.name],
    ["Sponsor", programme.sponsor],
    ["Round", programme.round],
    ["Reviewed by", programme.reviewer],
  ] as const;
  const right = [
    ["Firm", firm],
    ["Trade", trade],
    ["Remark on every sheet", remark],
  ] as const;
  writeFactList(sheet, rows.facts, ["B", "C", "E"], left);
  writeFactList(sheet, rows.facts, ["G", "H", "K"], right);
  sheet.validate(
    text(`C${rows.facts}:E${rows.facts + 3}`, "Programme", "The programme stands at the top of every sheet."),
    text(
      `H${rows.facts}:K${rows.facts + 2}`,
      "Review",
      "Firm, trade and remark stand on every sheet; an empty remark on none.",
    ),
  );
}

function writeCounts(sheet: Sheet): void {
  writeHeading(sheet, rows.counts - 1, ["B", "E"], "The round");
  const verdict = (word: string) => `COUNTIF(${column("verdict")},"${word}")`;
  const validity = (word: string) => `COUNTIF(${column("validity")},"${word}")`;
  const part = (share: number) => `IF(COUNT(${column("n50")})=0,"",PERCENTILE(${column("n50")},${share}))`;
  const lines: readonly (readonly [label: string, formula: string, format?: string, unit?: string])[] = [
    ["Reports", `COUNTA(${column("id")})`],
    ["Recomputed", `COUNT(${column("n50")})`],
    ["Valid", validity("valid")],
    ["Not valid", validity("not valid")],
    ["Pass", verdict("pass")],
    ["Fail", verdict("fail")],
    ["Not proven", verdict("not proven")],
    ["Limit of n_{50}", 'IF(Limit="","",Limit)', "0.0##", "1/h"],
    ["n_{50}, lowest tenth up to", part(0.1), "0.000", "1/h"],
    ["n_{50}, middle", part(0.5), "0.000", "1/h"],
    ["n_{50}, highest tenth from", part(0.9), "0.000", "1/h"],
    [
      "Reported and recomputed differ",
      `COUNTIF(${column("difference")},">"&ReportedTolerance)+COUNTIF(${column("difference")},"<"&-ReportedTolerance)`,
    ],
    ["Reports to look at", `COUNT(${column("order")})`],
  ];
  lines.forEach(([label, formula, format = "0", unit], index) => {
    const row = rows.counts + index;
    const ofReports = label === "Limit of n_{50}" ? formula : `IF(COUNTA(${column("id")})=0,"",${formula})`;
    sheet.rich(`B${row}`, label, looks.label).formula(`C${row}`, ofReports, native(format));
    const share = `IF(N(C${rows.counts})=0,"",C${row}/C${rows.counts})`;
    if (index >= 2 && index <= 6) sheet.formula(`D${row}`, share, native("0.0 %"));
    else sheet.put(`D${row}`, unit ?? null, looks.unit);
  });
  writeGlobalRisks(sheet, rows.counts + lines.length);
}

/** Global risks of the rule: the round's own results are the prior, their spread less what measuring adds to it. */
function writeGlobalRisks(sheet: Sheet, at: number): void {
  const [mean, spread] = [`AVERAGE(${column("n50")})`, `STDEV(${column("n50")})`];
  const uncertainty = `ExpandedShare*${mean}/_xlfn.NORM.S.INV(0.975)`;
  const ofHouses = `SQRT(${spread}^2-(${uncertainty})^2)`;
  const table = call("DECISIONRISK", mean, uncertainty, "Limit", mean, ofHouses, "AcceptanceRule");
  for (const [row, label, line] of [
    [at, "Above the limit, and passes", 14],
    [at + 1, "Within the limit, no pass", 15],
  ] as const) {
    sheet.put(`B${row}`, label, looks.label);
    sheet.addIn(`C${row}`, `IF(COUNT(${column("n50")})<2,"",INDEX(${table},${line},3))`, fromAddIn("0.0 %"));
    sheet.put(`D${row}`, "of houses", looks.unit);
  }
}

function writeTesterTable(sheet: Sheet): void {
  writeHeading(sheet, rows.testers - 1, ["G", "K"], "By tester");
  writeColumnHeads(sheet, rows.testers, "G", ["<", "reports", "not valid", "mean n50, 1/h", "reported lower, %"]);
  testers.forEach((tester, index) => {
    const row = rows.testers + 1 + index;
    const own = `(${column("tester")}=G${row})`;
    const mean = (of: "n50" | "difference") =>
      `SUMPRODUCT(${own}*1,${column(of)})/SUMPRODUCT(${own}*ISNUMBER(${column(of)}))`;
    sheet.type(`G${row}`, tester, undefined, "left");
    sheet.formula(`H${row}`, `IF(G${row}="","",${countOf(column("tester"), `G${row}`)})`, native("0"));
    sheet.formula(
      `I${row}`,
      `IF(N(H${row})=0,"",SUMPRODUCT(${own}*(${column("validity")}="not valid"))/H${row})`,
      native("0 %"),
    );
    sheet.formula(`J${row}`, `IF(N(H${row})=0,"",IFERROR(${mean("n50")},""))`, native("0.000"));
    sheet.formula(`K${row}`, `IF(N(H${row})=0,"",IFERROR(-${mean("difference")},""))`, native(decimals(2)));
  });
  const last = rows.testers + testers.length;
  sheet.validate(text(`G${rows.testers + 1}:G${last}`, "Tester", "As the name stands in the table of houses."));
  sheet.put(
    `G${last + 1}`,
    "Reported lower: by how much the reported n50 stand below the recomputed ones, on the mean. A few per cent on one side are a habit; ask for the calculation.",
    looks.note,
  );
  sheet.merge(`G${last + 1}:K${last + 2}`);
}

/** How the recomputed n50 are spread over classes; the last class is open. */
function writeSpread(sheet: Sheet): void {
  writeHeading(sheet, rows.spread - 1, ["B", "K"], "Spread of the recomputed n_{50}: number of houses in each class");
  const first = rows.spread;
  const [labels, values] = ["J", "K"];
  for (let index = 0; index < classes.count; index += 1) {
    const row = first + index;
    const from = (index * classes.width).toFixed(1);
    const to = ((index + 1) * classes.width).toFixed(1);
    const isLast = index === classes.count - 1;
    sheet.put(
      `${labels}${row}`,
      isLast ? `${from} and more` : `${from} to ${to}`,
      style({ align: "right", indent: 0 }, looks.unit),
    );
    const below = isLast ? "" : `-COUNTIF(${column("n50")},">="&${to})`;
    const houses = `COUNTIF(${column("n50")},">="&${from})${below}`;
    sheet.formula(`${values}${row}`, `IF(COUNT(${column("n50")})=0,"",${houses})`, native("0"));
  }
  const last = first + classes.count - 1;
  const range = (letter: string) => onSheet(sheets.overview, `${letter}${first}:${letter}${last}`);
  sheet.chart(
    barChart(
      "upright",
      range(labels),
      [{ name: "houses", values: range(values), colour: palette.petrol }],
      { from: { row: first - 1, col: 1 }, to: { row: first + 29, col: 9 } },
      {
        axisTitle: "houses",
        namesTitle: "recomputed n50, 1/h",
        alternative: "Bars: how many houses have a recomputed n50 in each class of a tenth of an air change an hour.",
        textSize: 8,
        format: "0",
      },
    ),
  );
}

/** The reports with the most points, with what makes them worth a look. */
function writeFirstToLookAt(sheet: Sheet, at: number): void {
  writeHeading(sheet, at - 1, ["B", "K"], "To look at first");
  writeColumnHeads(sheet, at, "B", ["<report, tester", "points", "n50 reported", "recomputed, 1/h", "", "<why"]);
  sheet.paint(`H${at}:K${at}`, looks.columnHeadLeft);
  for (let index = 1; index <= listLength; index += 1) {
    const row = at + index;
    const found = `MATCH(LARGE(${column("order")},${index}),${column("order")},0)`;
    const pick = (wanted: Parameters<typeof column>[0]) =>
      `IF(COUNT(${column("order")})<${index},"",INDEX(${column(wanted)},${found}))`;
    sheet.formula(
      `B${row}`,
      `IF(COUNT(${column("order")})<${index},"",INDEX(${column("id")},${found})&"   "&INDEX(${column("tester")},${found}))`,
      native(undefined, "left"),
    );
    sheet.formula(`C${row}`, pick("score"), native("0"));
    sheet.formula(`D${row}`, pick("reported"), native("0.00"));
    sheet.formula(`E${row}`, pick("n50"), native(decimals(3)));
    const picked = (wanted: "notMet" | "why") => `INDEX(${column(wanted)},${found})`;
    const reasons = `IF(COUNT(${column("order")})<${index},"",IF(${picked("notMet")}="","","not valid ("&${picked("notMet")}&")"&IF(${picked("why")}="","","; "))&${picked("why")})`;
    sheet
      .formula(`G${row}`, reasons, style({ wrap: true, size: 8 }, native(undefined, "left")))
      .merge(`G${row}:K${row}`)
      .height(24, row);
  }
}
