import { unzipSync } from "fflate";
import { describe, expect, it } from "vitest";
import { sheetOf } from "../workbook/file/package";
import { readArguments } from "./arguments";
import { drawsOf } from "./draws";
import { formulaMutant } from "./mutants/formula";
import { wholeOf, type Mutant } from "./mutants/mutant";
import { rawMutant } from "./mutants/raw";
import { xmlMutant } from "./mutants/xml";
import { faultsOfCode, faultsOfText } from "./runs/judge";
import { usageOf, watch } from "./runs/watch";
import { shrink } from "./shrink";

const kindsOf = (out: string, err = "") => faultsOfText(out, err).map(({ kind }) => kind);

describe("the judge", () => {
  it.each([
    ["escape", "\u001b[2J"],
    ["C1", "\u009b31m"],
    ["carriage return", "a\rb"],
    ["right to left", "\u202egnp"],
    ["isolate", "\u2066x"],
    ["line separator", "a\u2028b"],
  ])("finds a control character: %s", (_, text) => expect(kindsOf(text)).toEqual(["control character"]));

  it("finds stack traces, and the engine's words in a sentence of ours", () => {
    const stack = new RangeError("Maximum call stack size exceeded").stack ?? "";
    expect(kindsOf("", stack)).toEqual(["stack trace"]);
    expect(kindsOf("the evaluation failed: Maximum call stack size exceeded")).toEqual(["caught crash"]);
  });

  it("takes what commands say for sound", () =>
    expect(kindsOf("Recomputed 3 formulas.\n\tq50 = 200 m³/h – “pass”\n", "recalc: the file is damaged\n")).toEqual(
      [],
    ));

  it("finds a message that repeats a long value", () =>
    expect(kindsOf("", `A1 holds ${"1".repeat(5_000)}`)).toEqual(["long message"]));

  it("knows the codes of --help alone, and signals", () => {
    expect([0, 1, 2].flatMap((code) => faultsOfCode(code, null))).toEqual([]);
    expect(faultsOfCode(134, null)).toMatchObject([{ kind: "exit code" }]);
    expect(faultsOfCode(null, "SIGKILL")).toMatchObject([{ kind: "crash" }]);
  });
});

describe("mutants", () => {
  const sound = sheetOf('<row r="1"><c r="A1"><f>1+1</f><v>2</v></c><c r="B1"><v>3</v></c></row>');
  const kinds: Readonly<Record<string, (seed: number) => Mutant>> = {
    raw: (seed) => rawMutant("x", sound, drawsOf(seed)),
    xml: (seed) => xmlMutant("x", sound, drawsOf(seed)),
    formula: (seed) => formulaMutant(["SUM(A1:A9)", "1+1"], drawsOf(seed)),
  };

  it.each(Object.entries(kinds))("%s: the same for a seed, others for others", (_, make) => {
    const texts = Array.from({ length: 40 }, (__, seed) => Buffer.from(wholeOf(make(seed))).toString("base64"));
    expect(texts).toEqual(texts.map((___, seed) => Buffer.from(wholeOf(make(seed))).toString("base64")));
    expect(new Set(texts).size).toBeGreaterThan(30);
  });

  it("of parts and formulas are sound archives", () => {
    for (let seed = 0; seed < 40; seed++)
      for (const make of [kinds["xml"]!, kinds["formula"]!])
        expect(Object.keys(unzipSync(wholeOf(make(seed))))).toContain("[Content_Types].xml");
  });

  it("are cut down to what shows the fault", async () => {
    const rows = Array.from(
      { length: 30 },
      (_, row) => `<row r="${row + 1}"><c r="A${row + 1}"><v>${row}</v></c></row>`,
    );
    const large = sheetOf(rows.join(""));
    const sheetIn = (bytes: Uint8Array) => new TextDecoder().decode(unzipSync(bytes)["xl/worksheets/sheet1.xml"]);
    const smallest = await shrink({ words: "", steps: 0, build: () => large }, (bytes) =>
      Promise.resolve(sheetIn(bytes).includes('r="A17"')),
    );
    expect(sheetIn(smallest)).toContain('r="A17"');
    expect(sheetIn(smallest).length).toBeLessThan(sheetIn(large).length / 3);
  });
});

it("measures processor time and memory of a process", () => {
  const watching = watch(process.pid, () => expect.unreachable());
  const before = usageOf(process.pid)!;
  const kept = Array.from({ length: 3_000_000 }, (_, index) => ({ index }));
  const after = watching.stop();
  expect(kept).toHaveLength(3_000_000);
  expect(after.memory).toBeGreaterThan(before.memory / 2);
  expect(after.seconds).toBeGreaterThan(0);
});

it("reads its options", () => {
  expect(readArguments(["--minutes", "0.5", "--seed", "7"])).toMatchObject({ minutes: 0.5, seed: 7, corpus: true });
  expect(readArguments(["a.xlsx"])).toMatchObject({ files: ["a.xlsx"], mutants: false, corpus: false });
  expect(() => readArguments(["--minutes", "soon"])).toThrow(/--minutes/);
});
