import { mkdtempSync, rmSync, writeFileSync } from "node:fs";
import { spawnSync } from "node:child_process";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { afterAll, describe, expect, it } from "vitest";
import { sheetOf } from "../workbook/file/package";
import { slow } from "../time-outs";

const folder = mkdtempSync(join(tmpdir(), "faults-"));
afterAll(() => rmSync(folder, { recursive: true, force: true }));
const sound = sheetOf('<row r="1"><c r="A1"><v>1</v></c><c r="B1"><f>A1+1</f><v>2</v></c></row>');
for (const name of ["a.xlsx", "fault.xlsx", "z.xlsx"]) writeFileSync(join(folder, name), sound);

/** Runs a command as a program in which reading the workbook "fault.xlsx" fails as no one has foreseen. */
function run(...given: string[]): { code: number | null; out: string; err: string } {
  const script = `import fs from "node:fs";import { syncBuiltinESMExports } from "node:module";
    const original = fs.readFileSync;
    fs.readFileSync = (path, ...more) => {
      const content = original(path, ...more);
      if (String(path).endsWith("fault.xlsx")) Object.defineProperty(content, "length", { get() { throw new RangeError("Invalid string length\\n    at somewhere.ts:1:1"); } });
      return content;
    };
    syncBuiltinESMExports();`;
  const address = `data:text/javascript,${encodeURIComponent(script)}`;
  // Threads of the program inherit it, too.
  const command = ["--import", address, "src/cli/start.mjs", ...given];
  const { status, stdout, stderr } = spawnSync(process.execPath, command, { encoding: "utf8" });
  const problems = stderr.split("\n").filter((line) => !/^verify \[|^recalc: .*: (reading|evaluating)/.test(line));
  return { code: status, out: stdout, err: problems.join("\n") };
}

describe("an internal error", { timeout: slow }, () => {
  const fault = join(folder, "fault.xlsx");

  it.each([
    ["recalc", [fault]],
    ["verify", [fault]],
    ["trace", [fault, "Sheet1!B1"]],
    ["graph", [fault, "--list"]],
    ["issue-copy", [fault, "--out", join(folder, "copy.xlsx")]],
  ])("%s: one line, no stack trace, and an exit code that means nothing else", (name, given) => {
    const { code, out, err } = run(name, ...given);
    expect([code, out]).toEqual([3, ""]);
    expect(err).toMatch(
      new RegExp(`^${name}: .*internal error, please report it: RangeError: Invalid string length[^\\n]*\\n$`),
    );
  });

  it.each(["recalc", "verify"])(
    "%s: among others it is reported under its workbook's name, and the others as ever",
    (name) => {
      const { code, out, err } = run(name, folder);
      expect(code).toBe(3);
      expect(err.trimEnd().split("\n")).toEqual([expect.stringContaining(`${name}: ${fault}: internal error`)]);
      expect(out).toContain(join(folder, "a.xlsx"));
      expect(out).toContain(join(folder, "z.xlsx"));
      expect(out.trimEnd().split("\n").at(-1)).toMatch(/^3 workbooks: .*1 of them because of an internal error$/);
    },
  );

  it("says no more where the output itself cannot be written", () => {
    const { status, stderr } = spawnSync(
      "sh",
      ["-c", `"${process.execPath}" src/cli/start.mjs recalc --help > /dev/full`],
      { encoding: "utf8" },
    );
    expect([status, stderr]).toEqual([2, "the output cannot be written (ENOSPC)\n"]);
  });
});
