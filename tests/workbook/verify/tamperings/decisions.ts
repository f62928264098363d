import type { Spot, Tampered } from "../tampered";
import type { Tampering } from "./tampering";
import { lowerLimit, resultOf, verdictOf } from "./verdicts";

/** A change of the verdict's formula in a workbook whose house fails by right; the finding must name the verdict's cell. */
function inVerdict(change: (text: string) => string): (workbook: Tampered) => Spot {
  return (workbook) => {
    lowerLimit(workbook);
    const spot = verdictOf(workbook);
    workbook.reformulate(spot, change);
    return spot;
  };
}

/** The call alone, out of the conditions around it. */
function callIn(text: string): string {
  const start = text.indexOf("_xldudf_STILLAIR_PASSFAIL(");
  let depth = 0;
  for (let at = text.indexOf("(", start); at < text.length; at += 1) {
    if (text[at] === "(") depth += 1;
    if (text[at] === ")") depth -= 1;
    if (depth === 0) return text.slice(start, at + 1);
  }
  throw new Error(`no call of PASSFAIL in ${text}`);
}

/** The verdict's own formula gone, another in its place. */
function replaced(formula: string): (workbook: Tampered) => Spot {
  return (workbook) => {
    lowerLimit(workbook);
    const spot = verdictOf(workbook);
    workbook.put(spot, formula.replace("<result>", resultOf(workbook)[1]));
    return spot;
  };
}

/** The figure that is judged, put there by another formula or by hand. */
function judging(make: (workbook: Tampered, spare: Spot) => string | number): (workbook: Tampered) => Spot {
  return (workbook) => {
    lowerLimit(workbook);
    const spot = resultOf(workbook);
    const spare = workbook.beside(spot, 30, 400);
    // A row of its own at the sheet's end, far from anything that a reader looks at.
    workbook.edit(workbook.part(spare[0]), (xml) =>
      xml.replace(
        "</sheetData>",
        `<row r="${/\d+/.exec(spare[1])?.[0] ?? ""}"><c r="${spare[1]}"><v>0.47</v></c></row></sheetData>`,
      ),
    );
    workbook.put(spot, make(workbook, spare));
    return spot;
  };
}

/** What decides otherwise than PASSFAIL does by the result and the limit that the sheet shows. */
export const decisions: readonly Tampering[] = [
  {
    what: "a comparison of its own instead of PASSFAIL, with a limit of its own",
    kind: "verdict not computed by PASSFAIL",
    plant: replaced('=IF(<result><=0.6,"pass","fail")'),
  },
  {
    what: "a comparison of its own with a wider limit",
    kind: "verdict not computed by PASSFAIL",
    plant: replaced('=IF(<result><=TargetLimit*1.2,"pass","fail")'),
  },
  {
    what: "a word of the verdict replaced by another",
    kind: "verdict misreported",
    plant: inVerdict((text) => `SUBSTITUTE(${text},"fail","pass")`),
  },
  {
    what: "a pass whether PASSFAIL says so or not",
    kind: "verdict misreported",
    plant: inVerdict((text) => `IF(${callIn(text)}="fail","pass","pass")`),
  },
  {
    what: "a condition that comes before PASSFAIL",
    kind: "verdict misreported",
    plant: inVerdict((text) => `IF(1<2,"pass",${text})`),
  },
  {
    what: "a result made smaller inside the verdict's call",
    kind: "result altered",
    plant: inVerdict((text) => text.replace(/PASSFAIL\((\$?[A-Z]+\$?\d+),/, "PASSFAIL($1*0.98,")),
  },
  {
    what: "a result made smaller under a name of LET",
    kind: "result altered",
    plant: inVerdict(
      (text) =>
        `_xlfn.LET(_xlpm.r,${resultIn(text)}*0.98,${text.replace(/PASSFAIL\(\$?[A-Z]+\$?\d+,/, "PASSFAIL(_xlpm.r,")})`,
    ),
  },
  {
    what: "a limit made greater inside the verdict's call",
    kind: "limit changed",
    plant: inVerdict((text) => text.replace("TargetLimit,", "TargetLimit*1.1,")),
  },
  {
    what: "a limit made greater where it is fetched from its table",
    kind: "limit changed",
    plant(workbook) {
      lowerLimit(workbook);
      const spot = workbook.named("TargetLimit");
      workbook.reformulate(spot, (text) => `(${text})+0.1`);
      return spot;
    },
  },
  {
    what: "a limit that stands in a hidden name",
    kind: "limit changed",
    plant(workbook) {
      workbook.edit("xl/workbook.xml", (xml) =>
        xml.replace("<definedNames>", '<definedNames><definedName name="HouseLimit" hidden="1">0.6</definedName>'),
      );
      return inVerdict((text) => text.replace("TargetLimit,", "HouseLimit,"))(workbook);
    },
  },
  {
    what: "decimals that round the result down to its limit, written into the call",
    kind: "verdict depends on rounding",
    plant: inVerdict((text) => text.replace('IF(DecisionRule="plain",TargetDecimals,"")', "1")),
  },
  {
    what: "the rule that leaves the doubt to the house, written into the call",
    kind: "verdict depends on its rule",
    plant: inVerdict((text) => text.replace("DecisionRule,IF(", '"guarded rejection",IF(')),
  },
  { what: "a result typed in with few digits", kind: "result not from a test", plant: judging(() => 0.47) },
  {
    what: "a result that a formula fetches from a typed cell",
    kind: "result not from a test",
    plant: judging((_, [, spare]) => `=${spare}`),
  },
  {
    what: "a result that INDIRECT fetches from a typed cell",
    kind: "result not from a test",
    plant: judging((_, [, spare]) => `=INDIRECT("${spare}")`),
  },
  {
    what: "a result that is another one from a certain day on",
    kind: "result changes with the date",
    plant(workbook) {
      lowerLimit(workbook);
      const spot = resultOf(workbook);
      workbook.reformulate(spot, (text) => `IF(TODAY()>46000,${text}-0.01,${text})`);
      return spot;
    },
  },
];

const resultIn = (text: string): string => /PASSFAIL\((\$?[A-Z]+\$?\d+)/.exec(text)?.[1] ?? "";
