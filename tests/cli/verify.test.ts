import { spawnSync } from "node:child_process";
import { copyFileSync, mkdirSync, mkdtempSync, readFileSync, rmSync, writeFileSync } from "node:fs";
import { availableParallelism, tmpdir } from "node:os";
import { join } from "node:path";
import { afterAll, beforeAll, describe, expect, it } from "vitest";
import { verifyCommand } from "../../src/cli/verify/command";
import { dynamicArrays, packageOf } from "../workbook/file/package";
import { listening } from "./listening";
import { slow } from "../time-outs";

const folder = mkdtempSync(join(tmpdir(), "verify-"));
afterAll(() => rmSync(folder, { recursive: true, force: true }));

interface Run {
  readonly code: number | null;
  readonly out: string;
  readonly err: string;
}

/** The command inside this process, which is fast. */
async function verify(...given: string[]): Promise<Run> {
  const { output, heard } = listening();
  const code = await verifyCommand(given, output, "");
  return { code, ...heard() };
}

/** The command as npm runs it; the progress bar is left out of what it complains of. */
function verifyProcess(...given: string[]): Run {
  const command = ["src/cli/start.mjs", "verify", ...given];
  const { status, stdout, stderr } = spawnSync(process.execPath, command, { encoding: "utf8", maxBuffer: 1 << 28 });
  const problems = stderr.split("\n").filter((line) => !line.startsWith("verify ["));
  return { code: status, out: stdout, err: problems.join("\n") };
}

/** A flow, a volume, their ratio with a stored value, and one call of the add-in. */
function house(stored: string): Uint8Array {
  return packageOf({
    sheets: [
      '<sheetData><row r="1"><c r="B1"><v>300</v></c></row>' +
        `<row r="2"><c r="B2"><f>B4/B1</f><v>${stored}</v></c></row>` +
        '<row r="4"><c r="B4"><v>180</v></c></row>' +
        '<row r="5"><c r="B5" cm="1"><f t="array" ref="B5">_xldudf_STILLAIR_CONVERTUNITS(B4,"m³/h","L/s")</f><v>50</v></c></row></sheetData>',
    ],
    sheetNames: ["House"],
    metadata: dynamicArrays,
  });
}

const file = (name: string, bytes: Uint8Array): string => {
  const path = join(folder, name);
  writeFileSync(path, bytes);
  return path;
};

describe("one workbook", { timeout: slow }, () => {
  it("without errors or warnings: exit code 0 and a line that says so", () => {
    const { code, out, err } = verifyProcess(file("right.xlsx", house("0.6")));
    expect([code, err]).toEqual([0, ""]);
    expect(out).toContain("Recomputed 2 of 2 formulas");
    expect(out).toContain("Nothing found.");
  });

  it("with an old result: exit code 1, the cell, both values, why and what to do", async () => {
    const { code, out } = await verify(file("old.xlsx", house("0.56")));
    expect(code).toBe(1);
    expect(out).toMatch(/ERROR {2}old result {2}House!B2\n.*0\.56.*0\.6/);
    expect(out).toMatch(/Why: .+/);
    expect(out).toMatch(/Do: .+/);
  });

  it("that is none: exit code 2", () => {
    const { code, err } = verifyProcess(file("none.xlsx", new Uint8Array([1, 2, 3])));
    expect(code).toBe(2);
    expect(err).toContain("none.xlsx");
  });

  it("not fully recomputed: exit code 2, and the reason", async () => {
    const strange = packageOf({
      sheets: ['<sheetData><row r="1"><c r="A1"><f>SOMEFUNCTION(1)</f><v>1</v></c></row></sheetData>'],
    });
    const { code, out } = await verify(file("strange.xlsx", strange));
    expect(code).toBe(2);
    expect(out).toMatch(/WARNING {2}not evaluated/);
  });

  it("arguments: none, a missing file, a report over a workbook or over an existing file", async () => {
    const workbook = file("input.xlsx", house("0.6"));
    const taken = file("taken.html", new Uint8Array());
    for (const given of [
      [],
      [join(folder, "missing.xlsx")],
      [workbook, "--html", workbook],
      [workbook, "--html", taken],
    ]) {
      const { code, err } = await verify(...given);
      expect([code, err.startsWith("verify: ")], given.join(" ")).toEqual([2, true]);
    }
  });
});

describe("reports", { timeout: slow }, () => {
  it("one line of JSON for each, as soon as it is done", async () => {
    const [right, wrong] = [file("line-right.xlsx", house("0.6")), file("line-old.xlsx", house("0.5"))];
    const { code, out } = await verify(right, wrong, "--threads", "1", "--json-lines");
    expect(code).toBe(1);
    const lines = out
      .trim()
      .split("\n")
      .map((line) => JSON.parse(line) as { file: string; outcome: string });
    expect(lines.map(({ file: name, outcome }) => [name, outcome])).toEqual([
      [right, "nothing found"],
      [wrong, "findings"],
    ]);
    expect((await verify(right, "--json", "--json-lines")).code).toBe(2);
  });

  it("as a page, as Markdown and as JSON hold every finding", async () => {
    const workbook = file("for <report>.xlsx".replace(/[<>]/g, "_"), house("0.56"));
    const [html, markdown] = [join(folder, "report.html"), join(folder, "report.md")];
    const { code, out } = await verify(workbook, "--html", html, "--markdown", markdown, "--json");
    const { workbooks } = JSON.parse(out) as { workbooks: { findings: { what: string; place: string }[] }[] };
    expect([code, workbooks.length]).toEqual([1, 1]);
    const page = readFileSync(html, "utf8");
    const text = readFileSync(markdown, "utf8");
    for (const { place } of workbooks[0]?.findings ?? []) {
      expect(page).toContain(place);
      expect(text).toContain(place);
    }
    // Self-contained: nothing is fetched.
    expect(page).not.toMatch(/<(script|link|img)|https?:/);
    expect(page).toMatch(/^<!DOCTYPE html><html lang="en">/);
  });
});

describe("a folder of 200 workbooks", { timeout: slow }, () => {
  const many = join(folder, "many");
  interface Worked {
    readonly file: string;
    readonly from: number;
    readonly to: number;
  }
  let threads: { thread: number; worked: Worked[] }[] = [];
  let run: Run;

  beforeAll(() => {
    mkdirSync(join(many, "inner"), { recursive: true });
    for (let index = 0; index < 200; index++) {
      const path = join(many, index % 2 ? "inner" : "", `house-${String(index).padStart(3, "0")}.xlsx`);
      writeFileSync(path, house(index === 77 ? "0.56" : "0.6"));
    }
    copyFileSync("sample-workbooks/final-test.xlsx", join(many, "final-test.xlsx"));
    run = verifyProcess(many, "--json");
    ({ threads } = JSON.parse(run.out) as { threads: typeof threads });
  }, slow);

  it("is reviewed in full: the one with an old result is found, and only that one", () => {
    const { workbooks } = JSON.parse(run.out) as { workbooks: { file: string; outcome: string }[] };
    expect(run.code).toBe(1);
    expect(workbooks).toHaveLength(201);
    expect(workbooks.filter(({ outcome }) => outcome !== "nothing found").map(({ file }) => file)).toEqual([
      join(many, "inner", "house-077.xlsx"),
    ]);
  });

  it("keeps every core at work at the same time", () => {
    expect(threads).toHaveLength(Math.min(201, availableParallelism()));
    const all = threads.flatMap(({ worked }) => worked.map((one) => one.file));
    expect(new Set(all).size).toBe(201);
    for (const { thread, worked } of threads) {
      expect(worked.length).toBeGreaterThan(0);
      const others = threads.filter((other) => other.thread !== thread).flatMap((other) => other.worked);
      // While this thread worked on some workbook, each other one had one in hand too.
      const overlaps = worked.some(({ from, to }) => others.some((other) => other.from < to && from < other.to));
      expect(overlaps || threads.length === 1).toBe(true);
    }
  });
});
