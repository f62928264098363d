import { describe, expect, it } from "vitest";
import type { ExampleArgument } from "../../src/functions/examples";
import { examples } from "../../src/functions/examples";
import { composeCall, findMissing, readNumber } from "../../src/taskpane/call-text";
import { formatSelected } from "../../src/taskpane/port/addresses";
import type { Block, SelectedArea } from "../../src/taskpane/port/port";
import { slow } from "../time-outs";
import { functionEntries, openSession } from "./file-in-memory";

const sheet = "Sheet1";
const entryOf = (id: string) => functionEntries.find((entry) => entry.id === id)!;
const compose = (id: string, ...texts: readonly string[]): string => composeCall(entryOf(id), texts, sheet);

describe("the call that a form composes", () => {
  it("keeps blanks where 0 is a value or a reading, and only there", () => {
    expect(compose("BASELINEPRESSURE", "Sheet1!A1:A3", "B4")).toBe(
      '=STILLAIR.BASELINEPRESSURE(IF(A1:A3="","",A1:A3),IF(B4="","",B4))',
    );
    expect(compose("AIRCHANGERATE", "Sheet1!A1", "Readings!B4")).toBe("=STILLAIR.AIRCHANGERATE(A1,Readings!B4)");
    const kept = functionEntries.flatMap(({ id, arguments: given }) =>
      given.flatMap(({ name, keepsBlanks }) => (keepsBlanks ? [`${id} ${name}`] : [])),
    );
    for (const one of ["TESTRESULT settings", "TESTRESULT include", "AIRDENSITY temperature", "WINDPRESSURE speed"])
      expect(kept).toContain(one);
    for (const one of ["TESTRESULT pressures", "TESTRESULT flows", "PASSFAIL target", "AIRDENSITY units"])
      expect(kept).not.toContain(one);
  });

  it("is the same in every language: a comma typed in a number becomes a point, a share a fraction", () => {
    expect(compose("AIRDENSITY", "20,5", "", "50 %")).toBe("=STILLAIR.AIRDENSITY(20.5,,0.5)");
    expect(["−1,5", "+2", "0.7 %", "1e3", ".5", "5 Pa", "", "1,000,5", "1,250", "0,650"].map(readNumber)).toEqual([
      -1.5,
      2,
      0.007,
      1000,
      0.5,
      undefined,
      undefined,
      undefined,
      // 1250 to some, 1.25 to others.
      undefined,
      0.65,
    ]);
  });

  it("writes words in quotation marks, leaves off what is not given at the end, and passes on what is a formula", () => {
    expect(compose("LEAKAGEAREA", "40", "0.65", "effective 4 Pa", "", " ")).toBe(
      '=STILLAIR.LEAKAGEAREA(40,0.65,"effective 4 Pa")',
    );
    expect(compose("ENVELOPESIZE", "10", "8", "2", "2.7", "gable")).toContain(',"gable")');
    expect(compose("AIRCHANGERATE", "=SUM(A1:A3)", "House[Volume]")).toBe(
      "=STILLAIR.AIRCHANGERATE(SUM(A1:A3),House[Volume])",
    );
    expect(compose("AIRCHANGERATE", "$A$1", "'Air leakage graph'!B:B")).toBe(
      "=STILLAIR.AIRCHANGERATE($A$1,'Air leakage graph'!B:B)",
    );
    expect(compose("CONVERTUNITS", 'say "so"', "m³/h", "cfm")).toContain('("say ""so""",');
  });

  it("names the first argument that is missing", () => {
    expect(findMissing(entryOf("TESTRESULT"), ["depressurization", "A1:A9", " "])?.name).toBe("flows");
    expect(findMissing(entryOf("AIRDENSITY"), ["20"])).toBeUndefined();
  });
});

/** Where the arguments of an example lie, one below the other. */
function layOut(given: readonly ExampleArgument[]): { readonly texts: string[]; readonly blocks: Block[] } {
  let row = 0;
  const blocks: Block[] = [];
  const texts = given.map((value) => {
    if (value === null) return "";
    if (typeof value !== "object") return String(value);
    const place: SelectedArea = { sheet, row, column: 0, rows: value.length, columns: value[0]!.length };
    blocks.push({ ...place, cells: value, reach: place });
    row += value.length;
    return formatSelected(place);
  });
  return { texts, blocks };
}

describe("a form filled with a function's example, its ranges picked from the sheet", { timeout: slow }, () => {
  it.each(Object.entries(examples))("%s", async (id, { arguments: given, gives }) => {
    const session = openSession();
    const { texts, blocks } = layOut(given);
    for (const block of blocks) await session.port.write(block);
    const place = { sheet, row: 0, column: 20, rows: 1, columns: 1 };
    const { rows, problem, inTheWay } = await session.preview(place, compose(id, ...texts));
    expect(problem).toBe("");
    expect(inTheWay).toEqual([]);
    for (const [index, part] of gives.split("; ").entries()) {
      const [, symbol, shown = ""] = /^(?:(\w+) = )?(\S+)/.exec(part) ?? [];
      const cell = symbol === undefined ? rows.flat()[index] : rows.find((row) => row[1] === symbol)?.[2];
      const decimals = shown.split(".")[1]?.length ?? 0;
      expect(Number.isNaN(Number(shown)) ? cell : Number(cell).toFixed(decimals), part).toBe(shown);
    }
  });
});
