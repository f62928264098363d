import { existsSync, mkdtempSync, readdirSync, readFileSync, rmSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { afterAll, beforeEach, describe, expect, it } from "vitest";
import { runGraphCommand } from "../../src/cli/graph/command";
import { issueCopyCommand } from "../../src/cli/issue-copy/command";
import { all, marksOf, readSvg, wordsOf } from "../workbook/graph/read-svg";
import { baseline, n50Of, off, pressures, sheetData, testSheet, testWorkbook } from "../workbook/graph/test-workbook";
import { listening } from "./listening";
import { slow } from "../time-outs";

const root = mkdtempSync(join(tmpdir(), "graph-"));
afterAll(() => rmSync(root, { recursive: true, force: true }));
let folder: string;
beforeEach(() => (folder = mkdtempSync(join(root, "case-"))));

async function graph(...given: string[]) {
  const { output, heard } = listening();
  const code = await runGraphCommand(given, output);
  return { code, ...heard() };
}

function file(sheets: Readonly<Record<string, string>>): string {
  const path = join(folder, "house.xlsx");
  writeFileSync(path, testWorkbook(sheets));
  return path;
}

const drawing = (name = "house-graph") => readSvg(readFileSync(join(folder, `${name}.svg`), "utf8"));
const words = (svg = drawing()) => wordsOf(svg).map(({ text }) => text);

const depr = testSheet({ direction: "depressurization", excluded: [4] });
const pres = testSheet({ direction: "pressurization", coefficient: 15 });
const verdict = (limit: number) =>
  sheetData({
    A1: { f: `_xldudf_STILLAIR_AVERAGEDRESULT(${n50Of("Depr")},${n50Of("Pres")})` },
    A2: { f: `_xldudf_STILLAIR_PASSFAIL(A1,${limit})` },
  });

describe("a workbook with one test", { timeout: slow }, () => {
  it("is drawn with both directions, every reading at its induced pressure, the excluded one crossed, and the limit as a flow", async () => {
    const path = file({ Depr: depr, Pres: pres, Verdict: verdict(0.6) });
    const { code, out, err } = await graph(path);
    expect([code, err]).toEqual([0, ""]);
    expect(readdirSync(folder).sort()).toEqual(["house-graph.png", "house-graph.svg", "house.xlsx"]);
    // 0.6 1/h × 300 m³, by hand.
    expect(out).toContain("Limit: 180 m³/h at 50 Pa (n50 0.6 1/h)");
    expect(words()).toContain("limit 180 m³/h");
    const says = marksOf(drawing()).map((mark) => mark.says);
    // Each reading less the baseline, and its flow, which is stated to be the one through the envelope.
    const expected = (direction: string, coefficient: number, excluded: number[]) =>
      pressures.map((pressure, index) => {
        const out = excluded.includes(index) ? ", not used" : "";
        const flow = coefficient * pressure ** 0.65 * (off[index] ?? 1);
        return `${direction}${out}: ${pressure.toFixed(1)} Pa, ${flow.toPrecision(4)} m³/h`;
      });
    expect(baseline).not.toBe(0);
    expect(says.sort()).toEqual(
      [...expected("depressurization", 14, [2]), ...expected("pressurization", 15, [])].sort(),
    );
    expect([...readFileSync(join(folder, "house-graph.png")).subarray(1, 4)]).toEqual([0x50, 0x4e, 0x47]);
  });

  it("in US units is drawn in cfm", async () => {
    const ip = (direction: "depressurization" | "pressurization") =>
      testSheet({ direction, units: "IP", volume: 10_000 });
    await graph(file({ Depr: ip("depressurization"), Pres: ip("pressurization"), Verdict: verdict(3) }));
    expect(words()).toContain("flow through the envelope, cfm");
    // 3 1/h × 10 000 ft³ in an hour are 500 ft³ in a minute, by hand.
    expect(words()).toContain("limit 500 cfm");
  });

  it("names the technique of the line, and what an expected exponent weighs in it", async () => {
    await graph(file({ Depr: depr, Pres: pres }), "--overwrite");
    expect(words().join(" ")).not.toContain("Technique of the line");
    const told = (direction: "depressurization" | "pressurization") =>
      testSheet({ direction, technique: "weighted with expected exponent" });
    await graph(file({ Depr: told("depressurization"), Pres: told("pressurization") }), "--overwrite");
    expect(words().join(" ")).toMatch(
      /Technique of the line: weighted with expected exponent\. Prior on n for houses weighs \d+ % in depressurization, \d+ % in pressurization; the limits include it\./,
    );
  });

  it("may be a single direction, a card, or a fit alone", async () => {
    expect((await graph(file({ Pres: testSheet({ direction: "pressurization", function: "RESULTCARD" }) }))).code).toBe(
      0,
    );
    const fit = sheetData({
      ...Object.fromEntries(pressures.map((pressure, index) => [`A${index + 1}`, pressure])),
      ...Object.fromEntries(
        pressures.map((pressure, index) => [`B${index + 1}`, 14 * pressure ** 0.65 * (off[index] ?? 1)]),
      ),
      D1: { f: "_xldudf_STILLAIR_LEAKAGEFIT(A1:A7,B1:B7)", ref: "D1:J11" },
    });
    expect((await graph(file({ Fit: fit }), "--overwrite")).code).toBe(0);
    expect(words()).toContain("leakage curve");
    expect(words().join(" ")).toContain("All values are at the conditions of the test");
  });

  it("has no limit where the workbook's verdict is on a number that is none of its results, unless one is given", async () => {
    const rounded = verdict(0.6).replace("PASSFAIL(A1,", "PASSFAIL(ROUND(A1,1),");
    const path = file({ Depr: depr, Pres: pres, Verdict: rounded });
    expect((await graph(path)).out).toContain("No limit is marked");
    expect(words().filter((text) => text.startsWith("limit "))).toEqual([]);
    await graph(path, "--limit", "212,5", "--out", join(folder, "given.svg"), "--title", "Pebble & Cottage");
    expect(words(drawing("given"))).toContain("limit 212.5 m³/h");
    expect(all(drawing("given"), "title")[0]?.text).toContain("Pebble & Cottage");
  });
});

describe("several tests", { timeout: slow }, () => {
  const units = {
    "Unit 1": testSheet({ direction: "depressurization" }),
    "Unit 2": testSheet({ direction: "depressurization", coefficient: 20 }),
    "Unit 3": testSheet({ direction: "pressurization", coefficient: 9 }),
  };

  it("are listed and none is chosen", async () => {
    const { code, out, err } = await graph(file(units));
    expect([code, out]).toEqual([2, ""]);
    for (const name of Object.keys(units)) expect(err).toContain(`'${name}!J2'`);
    expect(readdirSync(folder)).toEqual(["house.xlsx"]);
    expect((await graph(join(folder, "house.xlsx"), "--list")).out.split("\n")).toHaveLength(5);
    expect(await graph(join(folder, "house.xlsx"), "--cell", "?")).toEqual(
      await graph(join(folder, "house.xlsx"), "--list"),
    );
  });

  it("are drawn by their cells, alone or together", async () => {
    const path = file(units);
    expect((await graph(path, "--cell", "'Unit 2'!$J$2")).code).toBe(0);
    expect(marksOf(drawing())).toHaveLength(7);
    expect((await graph(path, "--cell", "Unit 2!J2", "--cell", "'Unit 1'!J2", "--out", join(folder, "two"))).code).toBe(
      0,
    );
    expect(words(drawing("two"))).toContain("depressurization, Unit 1");
  });

  it("of one direction are told apart by their sheets, and a sheet that says the direction is name enough", async () => {
    const runs = {
      Depressurization: testSheet({ direction: "depressurization" }),
      "Second depressurization": testSheet({ direction: "depressurization", coefficient: 15 }),
      Again: testSheet({ direction: "depressurization", coefficient: 16 }),
    };
    const cells = Object.keys(runs).flatMap((name) => ["--cell", `'${name}'!J2`]);
    expect((await graph(file(runs), ...cells, "--out", join(folder, "runs"))).code).toBe(0);
    const names = words(drawing("runs"));
    for (const name of ["Depressurization", "Second depressurization", "depressurization, Again"])
      expect(names).toContain(name);
    expect(names).not.toContain("depressurization, Depressurization");
  });

  it("say it where the picture lacks the letters of a name", async () => {
    const { out } = await graph(file({ Depr: depr }), "--title", "Haus Öring, дом, 試屋試");
    expect(out).toContain("The picture has no glyphs for 試屋 and shows boxes");
    const plain = await graph(join(folder, "house.xlsx"), "--title", "Σπίτι №1 – “Ås”, 50 m³/h ± 2 %", "--overwrite");
    expect([plain.code, plain.out.includes("no letters")]).toEqual([0, false]);
  });

  it("are found in an issue copy, among the frozen formulas", async () => {
    const copy = join(folder, "issued.xlsx");
    expect(issueCopyCommand([file(units), "--out", copy, "--recalculate"], listening().output)).toBe(0);
    expect((await graph(copy, "--list")).out).toContain("'Unit 2!J2'");
  });

  it("are told apart from cells that hold none", async () => {
    expect((await graph(file(units), "--cell", "'Unit 1'!A1")).err).toContain("computes no test");
  });
});

describe("refusals", { timeout: slow }, () => {
  it("of a workbook without tests, or with one that is half filled, which says why", async () => {
    expect((await graph(file({ Sheet: sheetData({ A1: 1 }) }))).err).toContain("has no test");
    expect((await graph(join(folder, "house.xlsx"), "--list")).out).toContain("No test: no cell calls TESTRESULT");
    const { code, err } = await graph(file({ Depr: testSheet({ direction: "depressurization", count: 2 }) }));
    expect(code).toBe(2);
    expect(err).toContain("Depr!J2: pressures: 3 readings are needed");
  });

  it("of files that exist, of the workbook's own name, and of arguments that mean nothing", async () => {
    const path = file({ Depr: depr });
    writeFileSync(join(folder, "house-graph.png"), "mine");
    expect((await graph(path)).err).toContain("house-graph.png exists");
    expect(readFileSync(join(folder, "house-graph.png"), "utf8")).toBe("mine");
    expect(existsSync(join(folder, "house-graph.svg"))).toBe(false);
    expect((await graph(path, "--overwrite")).code).toBe(0);
    expect((await graph(path, "--out", join(folder, "nowhere", "x"))).err).toContain("there is no folder");
    expect((await graph(path, "--limit", "much")).err).toContain("--limit needs a flow");
    expect((await graph()).err).toContain("name one workbook");
    expect((await graph(path, "--colour")).err).toMatch(/^graph: .*--colour.*\n$/);
    expect((await graph(join(folder, "absent.xlsx"))).code).toBe(2);
    expect((await graph("--help")).out).toContain("npm run graph -- FILE");
  });
});
