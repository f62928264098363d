import { formatCellAddress } from "../../../../src/workbook/index";
import { filled, type Spot, type Tampered } from "../tampered";
import type { Tampering } from "./tampering";

export const verdictOf = (workbook: Tampered): Spot => workbook.find(/STILLAIR_PASSFAIL\(/);

/** The arguments of the verdict's call, split at the commas outside brackets. */
function argumentsOf(text: string): string[] {
  const parts: string[] = [""];
  let depth = 0;
  for (const letter of text.slice(text.indexOf("PASSFAIL(") + "PASSFAIL(".length)) {
    if (letter === "(") depth++;
    if (letter === ")" && depth-- === 0) break;
    if (letter === "," && depth === 0) parts.push("");
    else parts[parts.length - 1] += letter;
  }
  return parts;
}

/** The verdict as the bare call, one argument changed: conditions around it go. */
function withArgument(workbook: Tampered, index: number, argument: string): Spot {
  const spot = verdictOf(workbook);
  workbook.reformulate(spot, (text) => {
    const given = argumentsOf(text);
    given[index] = argument;
    return `_xldudf_STILLAIR_PASSFAIL(${given.join(",").replace(/,+$/, "")})`;
  });
  return spot;
}

export const resultOf = (workbook: Tampered): Spot => {
  const [result = ""] = argumentsOf(workbook.formula(verdictOf(workbook)));
  return [verdictOf(workbook)[0], result.replaceAll("$", "")];
};

/** The row of the chosen criterion in the table of limits: its limit and what was published. */
function chosenLimit(workbook: Tampered): { limit: Spot; published: Spot } {
  const name = workbook.value(workbook.named("TargetName"));
  const sheet = workbook.named("TargetName")[0];
  const heading = workbook.find(/^as published$/i, sheet);
  for (let row = 1; row < 40; row++) {
    const published = workbook.beside(heading, 0, row);
    for (let left = 1; left < 12; left++) {
      const cell = workbook.beside(published, -left);
      if (workbook.value(cell) !== name) continue;
      const limit = Array.from({ length: left }, (_, step) => workbook.beside(cell, step + 1)).find(
        (spot) => workbook.value(spot) === workbook.value(workbook.named("TargetLimit")),
      );
      if (limit) return { limit, published };
    }
  }
  throw new Error("the chosen criterion is not in the table");
}

/** Lowers the limit, with its source, a little below the result: the house fails by right, and any pass is false. */
export function lowerLimit(workbook: Tampered): void {
  const { limit, published } = chosenLimit(workbook);
  workbook.put(limit, 0.5);
  workbook.put(published, "n50 ≤ 0.5 1/h");
}

/** Verdicts, limits and what they rest on. */
export const verdicts: readonly Tampering[] = [
  {
    what: "a verdict that takes no notice of validity",
    kind: "verdict without validity",
    plant: (workbook) => withArgument(workbook, 5, ""),
  },
  {
    what: "a verdict that is told the test is valid",
    kind: "verdict without validity",
    plant: (workbook) => withArgument(workbook, 5, '"valid"'),
  },
  {
    what: "a pass over a test with four readings",
    kind: "verdict on an invalid test",
    plant(workbook) {
      for (const spots of Object.values(readingRows(workbook)))
        for (const spot of spots.slice(4)) workbook.put(spot, null);
      return withArgument(workbook, 5, '"valid"');
    },
  },
  {
    what: "a verdict typed in",
    kind: "verdict typed in",
    plant(workbook) {
      const spot = verdictOf(workbook);
      workbook.put(spot, "pass");
      return spot;
    },
  },
  {
    what: "a cover that says PASS whatever the verdict is",
    kind: "verdict misreported",
    plant(workbook) {
      const { limit, published } = chosenLimit(workbook);
      workbook.put(limit, 0.4);
      workbook.put(published, "n50 ≤ 0.4 1/h");
      const cover = workbook.find(/"PASS"/, "Cover");
      workbook.reformulate(cover, (text) => text.replace('"FAIL"', '"PASS"'));
      return cover;
    },
  },
  {
    what: "the better direction instead of the mean",
    kind: "one direction decides",
    plant(workbook) {
      const spot = verdictOf(workbook);
      const result = resultOf(workbook);
      const [first, last] = [workbook.beside(result, -2), workbook.beside(result, -1)];
      workbook.reformulate(result, () => `MIN(${first[1]}:${last[1]})`);
      return spot;
    },
  },
  {
    what: "a fail whose only figure is rounded to the limit",
    kind: "verdict depends on rounding",
    plant(workbook) {
      lowerLimit(workbook);
      const figure = workbook.value(resultOf(workbook));
      const cover = workbook.book.sheets.find(({ name }) => name === "Cover");
      const showing = [...(cover?.cells.values() ?? [])].filter(({ value }) => value === figure);
      const spots = showing.map(({ row, column }): Spot => ["Cover", formatCellAddress(row, column)]);
      for (const spot of spots) oneDecimal(workbook, spot);
      return spots[0]!;
    },
  },
  {
    what: "a result rounded before it is compared",
    kind: "verdict depends on rounding",
    plant(workbook) {
      lowerLimit(workbook);
      const spot = resultOf(workbook);
      workbook.reformulate(spot, (text) => `ROUND(${text},1)`);
      return spot;
    },
  },
  {
    what: "a limit raised in the table of criteria",
    kind: "limit changed",
    plant(workbook) {
      const { limit } = chosenLimit(workbook);
      workbook.put(limit, 0.8);
      return limit;
    },
  },
  {
    what: "a limit typed over the criterion's",
    kind: "limit changed",
    plant(workbook) {
      const spot = workbook.named("TargetLimit");
      workbook.put(spot, 0.9);
      return spot;
    },
  },
  {
    what: "a limit written into the verdict's formula",
    kind: "limit changed",
    plant: (workbook) => withArgument(workbook, 1, "0.7"),
  },
  {
    what: "a volume by another convention than the criterion means",
    kind: "volume convention",
    plant(workbook) {
      workbook.put(workbook.named("VolumeConvention"), "whole internal");
      return /!/;
    },
  },
  {
    what: "one direction fitted by another technique",
    kind: "settings differ",
    plant(workbook) {
      const spot = workbook.setting(workbook.test("pressurization"), "confidence");
      workbook.put(spot, 0.9);
      return spot;
    },
  },
];

/** Pressures and fan pressures of the depressurization, reading after reading. */
function readingRows(workbook: Tampered): Record<string, Spot[]> {
  const { sheet, pressures, fanPressures } = workbook.test("depressurization");
  return { pressures: filled(workbook, sheet, pressures), fanPressures: filled(workbook, sheet, fanPressures) };
}

/** Gives a cell a style of its own: the one that it has, with one decimal. */
function oneDecimal(workbook: Tampered, [sheet, address]: Spot): void {
  const style = Number(
    new RegExp(`<c r="${address}"[^>]* s="(\\d+)"`).exec(workbook.parts.get(workbook.part(sheet)) ?? "")?.[1],
  );
  const count = addStyle(workbook, style, (format) => format.replace(/numFmtId="\d+"/, 'numFmtId="901"'));
  const format = '<numFmt numFmtId="901" formatCode="0.0"/>';
  if (!workbook.parts.get("xl/styles.xml")?.includes(format))
    workbook.edit("xl/styles.xml", (xml) => xml.replace("</numFmts>", `${format}</numFmts>`));
  workbook.edit(workbook.part(sheet), (xml) =>
    xml.replace(new RegExp(`(<c r="${address}"[^>]*) s="\\d+"`), `$1 s="${count}"`),
  );
}

/** Adds a cell style made from another one, and tells its index. */
export function addStyle(workbook: Tampered, from: number, change: (format: string) => string): number {
  let count = 0;
  workbook.edit("xl/styles.xml", (xml) =>
    xml.replace(/<cellXfs[^>]*>(.*?)<\/cellXfs>/s, (_, inner: string) => {
      const formats = [...inner.matchAll(/<xf [^>]*?(?:\/>|>.*?<\/xf>)/gs)].map(([format]) => format);
      count = formats.length;
      return `<cellXfs count="${count + 1}">${inner}${change(formats[from] ?? "")}</cellXfs>`;
    }),
  );
  return count;
}
