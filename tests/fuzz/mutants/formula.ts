import { dynamicArrays, packageOf } from "../../workbook/file/package";
import { drawsOf, type Draws } from "../draws";
import type { Mutant } from "./mutant";
import { oddTexts } from "./odd-values";

/** Pieces that put much work, depth or length into a short formula. */
const pieces = [
  ...[
    "A:A",
    "1:1",
    "A1:XFD1048576",
    "A1:A5000",
    "Sheet1!A1:Sheet2!B2",
    "A1#",
    "@A1:A9",
    "(A1,B2,C3)",
    "A1:B9 B1:B5",
    "first",
    "loop",
  ],
  ...["1E308", "-1E308", "1E-320", "0", '""', "TRUE", "#N/A", "{1,2;3,4}", '{1;2;"x"}', '"*a*a*a*a*b"', '"~*?"'],
  ...[
    "_xlfn.SEQUENCE(2000)",
    "_xlfn.SEQUENCE(1000,1000)",
    "_xlfn.SEQUENCE(2000000)",
    'REPT("a",32767)',
    'REPT("\'",9000)',
  ],
  ...["ROW(A1:A1048576)", 'INDIRECT("A1")', 'INDIRECT(REPT("A1:",90)&"A1")', "OFFSET(A1,1,1,500,500)"],
  ...["_xlfn.LAMBDA(_xlpm.x,_xlpm.x+1)", "_xlfn.LAMBDA(_xlpm.x,_xlpm.y,SUM(_xlpm.x,_xlpm.y))"],
];

/** Formulas that multiply what they are given. */
const wrappings = [
  "SUM(#)",
  "_xlfn.VSTACK(#,#)",
  "_xlfn.HSTACK(#,#,#)",
  "_xlfn.MAKEARRAY(200,200,_xlfn.LAMBDA(_xlpm.a,_xlpm.b,#))",
  "_xlfn.REDUCE(0,_xlfn.SEQUENCE(500),_xlfn.LAMBDA(_xlpm.a,_xlpm.b,_xlpm.a+SUM(#)))",
  "_xlfn.MAP(_xlfn.SEQUENCE(300),_xlfn.LAMBDA(_xlpm.a,SUM(#)))",
  "_xlfn.LET(_xlpm.q,#,_xlpm.q&_xlpm.q)",
  "_xlfn.CHOOSECOLS(#,1,1,1,1)",
  "_xlfn.CHOOSEROWS(#,1,1)",
  '_xlfn.TEXTJOIN(",",TRUE,#)',
  'SUBSTITUTE(#,"a",REPT("a",100))',
  "REPT(#,1000)",
  "IF(TRUE,#,1/0)",
  "IFERROR(#,#)",
  "INDEX(#,0,1)",
  "MMULT(#,TRANSPOSE(#))",
  "_xlfn.UNIQUE(#)",
  "_xlfn.SORT(#)",
  "COUNTIF(A:A,#)",
  'SEARCH(#,REPT("a",9000))',
  "MATCH(#,A:A,0)",
  'TEXT(#,"[h]:mm;[Red]0.0_);@")',
  "_xldudf_STILLAIR_BASELINEPRESSURE(#)",
  "_xldudf_STILLAIR_WINDPRESSURE(#)",
  '_xldudf_STILLAIR_CONVERTUNITS(#,"Pa","inHg")',
  "-#",
  "(#)",
  "#%",
  "#+#",
  "#:#",
];

type Change = (formula: string, draws: Draws, others: readonly string[]) => string;

const tokens = /"(?:[^"]|"")*"|[A-Za-z_$][\w.$]*(?:!\S+)?\(?|\d+(?:\.\d+)?|[^\s]/g;

const changes: Readonly<Record<string, Change>> = {
  "put a piece in": (formula, draws) => withToken(formula, draws, draws.pick(pieces)),
  "put an odd text in": (formula, draws) =>
    withToken(formula, draws, `"${draws.pick(oddTexts).replaceAll('"', '""').slice(0, 8_000)}"`),
  "put another formula in": (formula, draws, others) => withToken(formula, draws, `(${draws.pick(others)})`),
  wrap: (formula, draws) => draws.pick(wrappings).replaceAll("#", () => formula),
  "nest deeply": (formula, draws) => {
    const [before = "", after = ""] = draws.pick(["(#)", "-#", "SUM(#)", "ABS(#)", "1+#", "IF(1,#)"]).split("#");
    const times = draws.pick([5, 60, 70, 400, 2_000]);
    return before.repeat(times) + formula + after.repeat(times);
  },
  lengthen: (formula, draws) => {
    const sign = draws.pick(["+", "&", ",", " ", ":", "=", "^"]);
    const long = Array<string>(draws.pick([10, 300, 2_500])).fill(draws.pick(["A2", "1", formula.slice(0, 200)]));
    return draws.onceIn(2) ? `SUM(${long.join(sign)})` : long.join(sign);
  },
  "take a token out": (formula, draws) => withToken(formula, draws, ""),
  "double a token": (formula, draws) => {
    const found = [...formula.matchAll(tokens)];
    if (found.length === 0) return formula;
    const { 0: token, index } = draws.pick(found);
    return formula.slice(0, index) + token.repeat(2) + formula.slice(index + token.length);
  },
};

function withToken(formula: string, draws: Draws, by: string): string {
  const found = [...formula.matchAll(tokens)];
  if (found.length === 0) return by;
  const { 0: token, index } = draws.pick(found);
  // A function keeps its bracket.
  const kept = token.endsWith("(") && by !== "" && !draws.onceIn(4) ? token : "";
  return formula.slice(0, index) + kept + by + formula.slice(index + token.length);
}

const escaped = (text: string): string =>
  text
    .replaceAll("&", "&amp;")
    .replaceAll("<", "&lt;")
    .replaceAll(">", "&gt;")
    .replace(/(?![\t\n\r])\p{Cc}/gu, "");

/** The formulas in column C, beside numbers in A and texts in B; some fill a range, some are filled down. */
function workbookOf(formulas: readonly string[], draws: Draws): Uint8Array {
  const cellOf = (formula: string, row: number): string => {
    const text = escaped(formula);
    switch (draws.below(4)) {
      case 0:
        return `<c r="C${row}" cm="1"><f t="array" ref="C${row}">${text}</f><v>0</v></c>`;
      case 1:
        return `<c r="C${row}"><f t="array" ref="C${row}:E${row + draws.pick([0, 3, 5_000])}">${text}</f><v>0</v></c>`;
      default:
        return `<c r="C${row}"><f>${text}</f><v>0</v></c>`;
    }
  };
  const rows = formulas.map((formula, index) => {
    const row = index + 1;
    return `<row r="${row}"><c r="A${row}"><v>${row * 1.5}</v></c><c r="B${row}" t="inlineStr"><is><t>text ${row}</t></is></c>${cellOf(formula, row)}</row>`;
  });
  const [name = "1"] = formulas;
  return packageOf({
    sheets: [`<sheetData>${rows.join("")}</sheetData>`, "<sheetData/>"],
    workbook: `<definedNames><definedName name="first">${escaped(name)}</definedName><definedName name="loop">_xlfn.LAMBDA(_xlpm.n,loop(_xlpm.n+1)+loop(_xlpm.n))</definedName></definedNames>`,
    metadata: dynamicArrays,
    level: 1,
  });
}

/** A workbook of formulas that are damaged, nested and multiplied, each as a step. */
export function formulaMutant(formulas: readonly string[], draws: Draws): Mutant {
  const steps = Array.from({ length: 1 + draws.below(6) }, () => {
    const kinds = Array.from({ length: 1 + draws.below(4) }, () => draws.pick(Object.keys(changes)));
    const formula = kinds.reduce((so, kind) => {
      const next = changes[kind]!(so, draws, formulas);
      return next.length > 60_000 ? so : next;
    }, draws.pick(formulas));
    return { kinds, formula };
  });
  const layout = draws.seed();
  return {
    words: `formulas: ${steps.map(({ kinds }) => kinds.join(", ")).join("; ")}`,
    steps: steps.length,
    build: (kept) =>
      workbookOf(
        steps.filter((_, step) => kept.includes(step)).map(({ formula }) => formula),
        drawsOf(layout),
      ),
  };
}
