import { spawnSync } from "node:child_process";
import { mkdirSync, mkdtempSync, readdirSync, readFileSync, rmSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { strFromU8, strToU8, unzipSync } from "fflate";
import { afterAll, beforeAll, describe, expect, it } from "vitest";
import { runRecalcCommand } from "../../src/cli/recalc/command";
import { dynamicArrays, packageOf, sheetOf } from "../workbook/file/package";
import { listening } from "./listening";
import { slow } from "../time-outs";

const folder = mkdtempSync(join(tmpdir(), "recalc-"));
afterAll(() => rmSync(folder, { recursive: true, force: true }));

interface Run {
  readonly code: number | null;
  readonly out: string;
  readonly err: string;
}

/** The command inside this process, which is fast. */
function recalc(...given: string[]): Run {
  const { output, heard } = listening();
  const code = runRecalcCommand(given, output);
  return { code, ...heard() };
}

/** The command as npm runs it. */
function recalcProcess(...given: string[]): Run {
  const command = ["src/cli/start.mjs", "recalc", ...given];
  const { status, stdout, stderr } = spawnSync(process.execPath, command, { encoding: "utf8" });
  // Progress lines come when the machine is slow.
  const problems = stderr.split("\n").filter((line) => !/: (reading|evaluating|writing)\b/.test(line));
  return { code: status, out: stdout, err: problems.join("\n") };
}

function file(name: string, bytes: Uint8Array): string {
  const path = join(folder, name);
  writeFileSync(path, bytes);
  return path;
}

const styles =
  '<numFmts><numFmt numFmtId="164" formatCode="0.00"/></numFmts><cellXfs><xf numFmtId="0"/><xf numFmtId="164"/></cellXfs>';

/** A house with a volume, a flow, and its air change rate in a summary block; the add-in is called once. */
function house(rate = "0.6"): Uint8Array {
  return packageOf({
    sheets: [
      '<sheetData><row r="1"><c r="A1" t="inlineStr"><is><t>Volume</t></is></c><c r="B1"><v>300</v></c><c r="C1" t="inlineStr"><is><t>m³</t></is></c></row>' +
        `<row r="2"><c r="A2" t="inlineStr"><is><t>Air change rate</t></is></c><c r="B2" s="1"><f>B4/B1</f><v>${rate}</v></c>` +
        '<c r="C2" t="inlineStr"><is><t>1/h</t></is></c></row>' +
        '<row r="4"><c r="B4"><v>180</v></c></row>' +
        '<row r="5"><c r="B5" cm="1"><f t="array" ref="B5">_xldudf_STILLAIR_CONVERTUNITS(B4,"m³/h","L/s")</f><v>50</v></c></row></sheetData>',
    ],
    sheetNames: ["The house"],
    workbook: "<definedNames><definedName name=\"Summary\">'The house'!$A$1:$C$2</definedName></definedNames>",
    styles,
    metadata: dynamicArrays,
  });
}

describe("one workbook", { timeout: slow }, () => {
  it("whose stored values are right: exit code 0, counts and the summary in its number formats", () => {
    const { code, out, err } = recalcProcess(file("right.xlsx", house()));
    expect([code, err]).toEqual([0, ""]);
    expect(out.split("\n").slice(1)).toEqual([
      "  Evaluated 2 of 2 formula cells (1 add-in call in 1 cell, at most 1 deep).",
      "  All computed values equal the stored ones.",
      "  Summary",
      "    Volume             300   m³",
      "    Air change rate   0.60   1/h",
      "",
    ]);
  });

  it("with a wrong stored value: exit code 1 and the cell, and JSON that says the same and nothing else", () => {
    const path = file("wrong.xlsx", house("0.56"));
    const { code, out, err } = recalcProcess(path, "--json");
    expect([code, err]).toEqual([1, ""]);
    expect(JSON.parse(out)).toEqual({
      exitCode: 1,
      workbooks: [
        {
          file: path,
          status: "different",
          formulaCells: 2,
          evaluatedCells: 2,
          addIn: { calls: 1, cells: 1, depth: 1 },
          cautions: [],
          errors: { cells: 0, new: 0, origins: [] },
          differences: [{ cell: "'The house'!B2", stored: 0.56, computed: 0.6, reason: expect.any(String) as string }],
          notEvaluated: [],
          cycles: [],
          summary: [
            { label: "Volume", value: 300, text: "300", unit: "m³" },
            { label: "Air change rate", value: 0.6, text: "0.60", unit: "1/h" },
          ],
        },
      ],
    });
  });

  it("with cells that cannot be evaluated: exit code 2, reasons grouped, dependants and circles named", () => {
    const cells = ["NOSUCHFUNCTION(1)", "NOSUCHFUNCTION(2)", "A1+1", "E1", "D1"];
    const row = cells.map((text, index) => `<c r="${"ABCDE"[index]}1"><f>${text}</f><v>1</v></c>`).join("");
    const { code, out } = recalc(file("unknown.xlsx", sheetOf(`<row r="1">${row}</row>`)));
    expect(code).toBe(2);
    expect(out).toMatch(/Not evaluated: 5 formula cells/);
    expect(out).toMatch(/NOSUCHFUNCTION.*: 2 cells \(Sheet1!A1, Sheet1!B1\)\n\s+1 cell depends on that \(Sheet1!C1\)/);
    expect(out).toMatch(/Circular references: 1\n\s+Sheet1!(D1 → Sheet1!E1 → Sheet1!D1|E1 → Sheet1!D1 → Sheet1!E1)/);
    expect(out).toMatch(/No summary/);
  });
});

describe("--set and --out", { timeout: slow }, () => {
  const target = join(folder, "copy.xlsx");
  let source = "";
  beforeAll(() => (source = file("set.xlsx", house())));

  it("show what changed, write a copy that is consistent, and leave the input alone", () => {
    const before = readFileSync(source);
    const { code, out } = recalc(source, "--set", "'The house'!B1=360", "--out", target);
    expect(code).toBe(0);
    expect(out).toMatch(/'The house'!B1\s+Volume, m³\s+300\s+→\s+360/);
    expect(out).toMatch(
      /Changed by --set: 1 computed cell\n\s+'The house'!B2\s+Air change rate, 1\/h\s+0\.6\s+→\s+0\.5\n/,
    );
    expect(out).toMatch(/Air change rate\s+0\.60\s+→\s+0\.50/);
    expect(Buffer.compare(readFileSync(source), before)).toBe(0);
    const sheets = [source, target].map((path) =>
      strFromU8(unzipSync(readFileSync(path))["xl/worksheets/sheet1.xml"] ?? new Uint8Array()),
    );
    expect(sheets[1]).toBe(sheets[0]?.replace("<v>300</v>", "<v>360</v>").replace("<v>0.6</v>", "<v>0.5</v>"));
    expect(recalc(target).code).toBe(0);
    expect(readdirSync(folder).filter((name) => name.endsWith(".tmp"))).toEqual([]);
  });

  it("never write over the input, nor over another file unless told to", () => {
    const bytes = readFileSync(target);
    const onto = (...more: string[]): { code: number | null; err: string } => recalc(source, ...more);
    expect(onto("--out", join(folder, ".", "set.xlsx"), "--overwrite")).toMatchObject({
      code: 2,
      err: expect.stringMatching(/itself/) as string,
    });
    expect(onto("--out", target)).toMatchObject({
      code: 2,
      err: expect.stringMatching(/exists.*--overwrite/) as string,
    });
    expect(Buffer.compare(readFileSync(target), bytes)).toBe(0);
    expect(onto("--out", target, "--overwrite").code).toBe(0);
    expect(Buffer.compare(readFileSync(target), readFileSync(source))).toBe(0);
  });

  it("let the range of a dynamic array grow and shrink", () => {
    const grid = (count: number): Uint8Array =>
      sheetOf(
        `<row r="1"><c r="A1"><v>${count}</v></c><c r="B1" cm="1"><f t="array" ref="B1:B${count}">_xlfn.SEQUENCE(A1)*10</f><v>10</v></c></row>` +
          Array.from(
            { length: count - 1 },
            (_, index) => `<row r="${index + 2}"><c r="B${index + 2}" s="1"><v>${index + 2}0</v></c></row>`,
          ).join(""),
        { metadata: dynamicArrays, styles },
      );
    const path = file("spill.xlsx", grid(3));
    for (const [count, code] of [
      [5, 0],
      [1, 0],
    ] as const) {
      const copy = join(folder, `spill${count}.xlsx`);
      expect(recalc(path, "--set", `Sheet1!A1=${count}`, "--out", copy).code).toBe(code);
      const text = strFromU8(unzipSync(readFileSync(copy))["xl/worksheets/sheet1.xml"] ?? new Uint8Array());
      expect(text).toContain(count === 1 ? 'ref="B1"' : 'ref="B1:B5"');
      expect(text.match(/<v>\d+<\/v>/g)).toEqual([
        `<v>${count}</v>`,
        ...Array.from({ length: count }, (_, index) => `<v>${index + 1}0</v>`),
      ]);
      expect(recalc(copy).code).toBe(0);
    }
  });
});

describe("a folder", { timeout: slow }, () => {
  const inside = join(folder, "many");
  beforeAll(() => {
    mkdirSync(join(inside, "deeper"), { recursive: true });
    const put = (name: string, bytes: Uint8Array | string): void =>
      writeFileSync(join(inside, name), typeof bytes === "string" ? strToU8(bytes) : bytes);
    put("deeper/good.XLSX", house());
    put("wrong.xlsx", house("0.5"));
    put("text.xlsx", "not a workbook");
    put("~$wrong.xlsx", "a lock file");
    put("notes.txt", "no workbook");
    put("empty.xlsx", "");
    put(
      "entity.xlsx",
      sheetOf("", { parts: { "xl/workbook.xml": strToU8('<!DOCTYPE a SYSTEM "file:///etc/passwd"><workbook/>') } }),
    );
  });

  it("is searched through; one line for each file that cannot be read; the worst exit code wins", () => {
    const { code, out, err } = recalcProcess(inside);
    expect(code).toBe(2);
    expect(out.trimEnd().split("\n").at(-1)).toBe(
      "5 workbooks: 1 equal, 1 with differences, 0 not fully evaluated, 3 unreadable",
    );
    const lines = err.trimEnd().split("\n");
    expect(lines).toHaveLength(3);
    expect(lines.join("\n")).toMatch(
      /empty\.xlsx: the file is empty\n.*entity\.xlsx: .*DOCTYPE.*\n.*text\.xlsx: .*not a zip archive/,
    );
  });

  it("without any workbook, and a path that is not there, are bad arguments", () => {
    mkdirSync(join(folder, "none"));
    expect(recalc(join(folder, "none"))).toMatchObject({
      code: 2,
      out: "",
      err: expect.stringMatching(/^recalc: there is no \.xlsx workbook.*\n$/) as string,
    });
    expect(recalc(join(folder, "absent.xlsx"))).toMatchObject({
      code: 2,
      out: "",
      err: expect.stringMatching(/^recalc: there is no file.*\n$/) as string,
    });
    expect(recalcProcess("--help")).toMatchObject({
      code: 0,
      out: expect.stringContaining("--blank-as-zero") as string,
    });
  });
});
