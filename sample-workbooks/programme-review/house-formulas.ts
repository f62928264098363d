import { call, quoted } from "../blocks/add-in";
import { houseColumns as at } from "./layout";

type Column = keyof typeof at;

/** What one row computes: native formulas, and row calls of the add-in, none of which fills more than its own cell. */
export interface RowFormula {
  readonly column: Column;
  readonly formula: string;
  readonly addIn?: true;
}

/** Conditions under which a row is looked at, with the words for it and the points it brings. */
function findings(
  cell: (column: Column) => string,
): readonly (readonly [holds: string, words: string, points: string])[] {
  const [validity, difference, reported] = [cell("validity"), cell("difference"), cell("reported")];
  const [n50, probability, apart] = [cell("n50"), cell("probability"), cell("apart")];
  const numbers = (...cells: string[]) => `COUNT(${cells.join(",")})=${cells.length}`;
  const guarded = (cells: string[], condition: string) => `IF(${numbers(...cells)},${condition},FALSE)`;
  return [
    [`${validity}="not valid"`, quoted("not valid"), "PointsInvalid"],
    [
      guarded([reported, n50], `(${reported}<=Limit)<>(${n50}<=Limit)`),
      quoted("other verdict than reported"),
      "PointsTurned",
    ],
    [
      guarded([difference], `ABS(${difference})>ReportedTolerance`),
      `"reported "&TEXT(ABS(${difference}),"0.0")&" % "&IF(${difference}<0,"lower","higher")`,
      "PointsDifferent",
    ],
    [guarded([apart], `${apart}>LargestApart`), `"directions "&TEXT(${apart},"0")&" % apart"`, "PointsApart"],
    [`AND(${reported}<>"",NOT(ISNUMBER(${reported})))`, quoted("the reported n50 is no number"), "PointsDifferent"],
    [guarded([n50], `${n50}<LowestPlausible`), quoted("implausibly low"), "PointsImplausible"],
    [guarded([probability], `AND(${probability}>0.05,${probability}<0.95)`), quoted("near the limit"), "PointsNear"],
  ];
}

/** Joins the words of the conditions that hold; each brings a semicolon before it, and the first one's is left off. */
function joinWords(parts: readonly (readonly [holds: string, words: string])[]): string {
  return `MID(${parts.map(([holds, words]) => `IF(${holds},"; "&${words},"")`).join("&")},3,300)`;
}

/** The formulas of one row of the table. */
export function rowFormulas(row: number): readonly RowFormula[] {
  const cell = (column: Column) => `${at[column]}${row}`;
  const range = (first: Column, last: Column) => `${cell(first)}:${cell(last)}`;
  const down = { p: range("firstPressureDown", "lastPressureDown"), q: range("firstFlowDown", "lastFlowDown") };
  const up = { p: range("firstPressureUp", "lastPressureUp"), q: range("firstFlowUp", "lastFlowUp") };
  const n50 = cell("n50");
  const found = findings(cell);
  const typed = `${range("volume", "baseline")},${range("firstPressureDown", "lastFlowUp")}`;
  const text = `COUNTA(${typed})<>COUNT(${typed})`;
  // Such a report stands first in the list, and no other one's figures suffer from its errors.
  const failed = `OR(${text},ISERROR(${cell("n50Down")}),ISERROR(${cell("n50Up")}))`;
  const unlessFailed = (formula: string, otherwise = '""') => `IF(${failed},${otherwise},${formula})`;
  return [
    ...steps(cell, "depressurization", down, ["cDown", "nDown", "r2Down", "clDown", "n50Down"]),
    ...steps(cell, "pressurization", up, ["cUp", "nUp", "r2Up", "clUp", "n50Up"]),
    {
      column: "n50",
      formula: unlessFailed(
        `IF(COUNT(${cell("n50Down")},${cell("n50Up")})=0,"",AVERAGE(${cell("n50Down")},${cell("n50Up")}))`,
      ),
    },
    {
      column: "apart",
      formula: `IF(COUNT(${cell("n50Down")},${cell("n50Up")})=2,100*ABS(${cell("n50Down")}-${cell("n50Up")})/${n50},"")`,
    },
    {
      column: "difference",
      formula: `IF(COUNT(${cell("reported")},${n50})=2,100*(${cell("reported")}-${n50})/${n50},"")`,
    },
    {
      column: "notMet",
      formula: unlessFailed(
        notMet(cell, down, up),
        `IF(${text},"text where a number is due","the readings give no result")`,
      ),
    },
    {
      column: "validity",
      formula: unlessFailed(
        `IF(${n50}="",IF(${cell("id")}="","","open"),IF(${cell("notMet")}="","valid","not valid"))`,
        quoted("not valid"),
      ),
    },
    {
      column: "verdict",
      formula: `IF(${n50}="","",${call("PASSFAIL", n50, "Limit", `ExpandedShare*${n50}`, "AcceptanceRule", undefined, cell("validity"))})`,
      addIn: true,
    },
    {
      column: "probability",
      formula: `IF(${n50}="","",${call("CONFORMANCEPROBABILITY", n50, `ExpandedShare*${n50}/_xlfn.NORM.S.INV(0.975)`, "Limit")})`,
      addIn: true,
    },
    {
      column: "score",
      formula: unlessFailed(
        `IF(${n50}="","",${found.map(([holds, , points]) => `IF(${holds},${points},0)`).join("+")})`,
        "PointsInvalid+PointsTurned+PointsDifferent",
      ),
    },
    {
      column: "why",
      formula: unlessFailed(
        `IF(${n50}="","",${joinWords(found.map(([holds, words]) => [holds, words]))})`,
        quoted("not recomputed"),
      ),
    },
    // Equal points: the earlier row first.
    { column: "order", formula: `IF(${cell("score")}="","",IF(${cell("score")}>0,${cell("score")}-ROW()/100000,""))` },
  ];
}

/** One direction from its readings to n50: C and n of the line, r², C at reference conditions, and the rate. */
function steps(
  cell: (column: Column) => string,
  direction: string,
  { p, q }: { readonly p: string; readonly q: string },
  [c, n, r2, cl, rate]: readonly [Column, Column, Column, Column, Column],
): RowFormula[] {
  const ifRead = (formula: string) => `IF(COUNTA(${p})=0,"",${formula})`;
  const reference = call("REFERENCECOEFFICIENT", cell(c), cell(n), quoted(direction), cell("indoor"), cell("outdoor"));
  return [
    { column: c, formula: ifRead(call("LEAKAGECOEFFICIENT", p, q)), addIn: true },
    { column: n, formula: ifRead(call("FLOWEXPONENT", p, q)), addIn: true },
    { column: r2, formula: ifRead(`INDEX(${call("LEAKAGEFIT", p, q)},3,3)`), addIn: true },
    {
      column: cl,
      formula: `IF(OR(${cell(c)}="",${cell("indoor")}="",${cell("outdoor")}=""),"",${reference})`,
      addIn: true,
    },
    {
      column: rate,
      formula: `IF(OR(${cell(cl)}="",${cell("volume")}=""),"",${cell(cl)}*50^${cell(n)}/${cell("volume")})`,
    },
  ];
}

type Readings = { readonly p: string; readonly q: string };

/** Which rules of validity a report breaks, in words. */
function notMet(cell: (column: Column) => string, down: Readings, up: Readings): string {
  const few = ({ p }: Readings) => `AND(COUNT(${p})>0,COUNT(${p})<FewestReadings)`;
  const low = ({ p }: Readings) => `AND(COUNT(${p})>0,MAX(${p})<HighestPressure)`;
  const outside = (n: Column) => `IF(${cell(n)}="",FALSE,OR(${cell(n)}<LowestExponent,${cell(n)}>HighestExponent))`;
  const loose = (r2: Column) => `IF(${cell(r2)}="",FALSE,${cell(r2)}<LowestR2)`;
  const old = `AND(COUNT(${cell("certificate")},${cell("day")})=2,${cell("certificate")}<${cell("day")})`;
  return joinWords([
    [`AND(BothDirections="yes",COUNT(${cell("n50Down")},${cell("n50Up")})=1)`, quoted("one direction only")],
    [`OR(${few(down)},${few(up)})`, quoted("too few readings")],
    [
      `IF(COUNT(${down.p},${up.p})=0,FALSE,MIN(${down.p},${up.p})<MAX(LowestPressure,BaselineFactor*${cell("baseline")}))`,
      quoted("lowest pressure too low"),
    ],
    [`OR(${low(down)},${low(up)})`, quoted("highest pressure too low")],
    [`${cell("baseline")}>LargestBaseline`, quoted("baseline too large")],
    [`OR(${outside("nDown")},${outside("nUp")})`, quoted("exponent")],
    [`OR(${loose("r2Down")},${loose("r2Up")})`, quoted("readings scatter")],
    [old, quoted("certificate out of date")],
  ]);
}
