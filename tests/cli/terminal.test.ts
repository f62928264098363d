import { spawnSync } from "node:child_process";
import { mkdtempSync, readFileSync, rmSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import fc from "fast-check";
import { afterAll, describe, expect, it } from "vitest";
import { runGraphCommand } from "../../src/cli/graph/command";
import { issueCopyCommand } from "../../src/cli/issue-copy/command";
import { runRecalcCommand } from "../../src/cli/recalc/command";
import { type Output, withJsonEscapes, withVisibleMarks } from "../../src/cli/shared/output";
import { traceCommand } from "../../src/cli/trace/command";
import { verifyCommand } from "../../src/cli/verify/command";
import { dynamicArrays, packageOf } from "../workbook/file/package";
import { listening } from "./listening";
import { slow } from "../time-outs";

const folder = mkdtempSync(join(tmpdir(), "terminal-"));
afterAll(() => rmSync(folder, { recursive: true, force: true }));

/** Everything that moves a cursor, sets a colour, rings, turns a line's direction, or is not seen; a line feed ends a line. */
const steering = /(?!\n)[\p{Cc}\u061c\u200b\u200e\u200f\u2028-\u202e\u2060-\u206f\ufeff]/u;

describe("a text on a terminal", { timeout: slow }, () => {
  const hostile = fc.string({
    unit: fc
      .oneof(fc.integer({ min: 0, max: 0x9f }), fc.integer({ min: 0x2000, max: 0x2070 }))
      .map((code) => String.fromCodePoint(code)),
  });

  it("is one line without a character that steers, whatever it holds", () => {
    fc.assert(
      fc.property(hostile, (text) => {
        const marked = withVisibleMarks(text);
        expect(marked).not.toMatch(steering);
        expect(marked).not.toContain("\n");
      }),
    );
  });

  it("is as it was where it holds none: letters of all writings, joiners, marks upon letters", () => {
    for (const text of ["Größe m³/h ≤ 0.6 · № 7", "می‌خواهم", "👩‍🚒", "e\u0301"])
      expect(withVisibleMarks(text)).toBe(text);
  });

  it("shows a mark for each", () => {
    expect(withVisibleMarks("\u001b[2J\r\n\u007f\u009b\u202e\u{e0041}")).toBe("␛[2J␍␊␡⟨U+009B⟩⟨U+202E⟩⟨U+E0041⟩");
  });

  it("JSON says the same by its own escapes", () => {
    fc.assert(
      fc.property(hostile, (text) => {
        const json = withJsonEscapes(JSON.stringify({ text }, null, 2));
        expect(json).not.toMatch(steering);
        expect(JSON.parse(json)).toEqual({ text });
      }),
    );
  });
});

const spoof = "\u001b[2J\u001b[Hhouse.xlsx\n  Nothing found.\n\u001b[8m\u009b31m\u202e";
const encoded = (text: string) =>
  text.replace(/[^ -~]/g, (sign) => `_x${sign.charCodeAt(0).toString(16).toUpperCase().padStart(4, "0")}_`);
const inline = (address: string, text: string) =>
  `<c r="${address}" t="inlineStr"><is><t>${encoded(text)}</t></is></c>`;

/** Its sheet, a name, texts, a table's cells and formulas say what a terminal would obey. */
const workbook = packageOf({
  sheets: [
    `<sheetData><row r="1">${inline("A1", spoof)}<c r="B1"><v>5</v></c>${inline("C1", spoof)}</row>` +
      `<row r="2">${inline("A2", "Double")}<c r="B2"><f>B1*2</f><v>3</v></c></row>` +
      '<row r="3"><c r="B3"><f>A1+1</f><v>3</v></c></row>' +
      `<row r="4"><c r="B4"><f>NOSUCH("${encoded(spoof)}",Odd)</f><v>3</v></c></row>` +
      '<row r="5"><c r="B5" cm="1"><f t="array" ref="B5">_xldudf_STILLAIR_CONVERTUNITS(B1,A1,"L/s")</f><v>50</v></c></row></sheetData>',
  ],
  sheetNames: [encoded(spoof)],
  workbook: `<definedNames><definedName name="Summary">'${encoded(spoof)}'!$A$1:$C$2</definedName><definedName name="Odd">"${encoded(spoof)}"</definedName></definedNames>`,
  metadata: dynamicArrays,
});
const file = join(folder, "house\u001b[31m.xlsx");
writeFileSync(file, workbook);

type Command = (given: readonly string[], output: Output) => number | Promise<number>;
const verify: Command = (given, output) => verifyCommand(given, output, "");
const out = (name: string) => ["--out", join(folder, name)];

describe("a workbook that imitates a verdict", { timeout: slow }, () => {
  it.each<[name: string, command: Command, given: readonly string[]]>([
    ["recalc", runRecalcCommand, [file]],
    ["recalc --list --set", runRecalcCommand, [file, "--list", "--set", `'${spoof}'!B1=6`]],
    ["recalc, a cell that is not there", runRecalcCommand, [file, "--set", `${spoof}!B1=6`]],
    ["recalc --json", runRecalcCommand, [file, "--json"]],
    ["recalc --out, not all evaluated", runRecalcCommand, [file, ...out("a.xlsx")]],
    ["verify", verify, [file]],
    ["verify --list", verify, [file, "--list"]],
    ["verify --json", verify, [file, "--json"]],
    ["trace", traceCommand, [file, `'${spoof}'!B2`]],
    ["trace of what fails", traceCommand, [file, `'${spoof}'!B4`]],
    ["trace --markdown", traceCommand, [file, `'${spoof}'!B3`, "--markdown"]],
    ["trace --json", traceCommand, [file, `'${spoof}'!B3`, "--json"]],
    ["trace --html", traceCommand, [file, `'${spoof}'!B3`, "--html"]],
    ["trace of no cell", traceCommand, [file, "Attic!B4"]],
    ["issue-copy", issueCopyCommand, [file, ...out("b.xlsx")]],
    ["issue-copy --recalculate", issueCopyCommand, [file, ...out("c.xlsx"), "--recalculate", "--keep-old-values"]],
    ["graph", runGraphCommand, [file, ...out("d")]],
    ["graph --list", runGraphCommand, [file, "--list"]],
  ])("%s: stays on its line and steers nothing", async (_, command, given) => {
    const { output, heard } = listening();
    await command(given, output);
    const said = heard().out + heard().err;
    expect(said).not.toBe("");
    expect(said).not.toMatch(steering);
    if (!given.includes("--html")) expect(said).not.toMatch(/^\s*Nothing found\.\s*$/m);
  });

  it("nor do the reports that are written as text", async () => {
    const [text, markdown, review] = ["trace.txt", "trace.md", "review.md"].map((name) => join(folder, name));
    const heard = listening().output;
    expect(traceCommand([file, `'${spoof}'!B3`, "--out", text ?? ""], heard)).toBe(0);
    expect(traceCommand([file, `'${spoof}'!B3`, "--markdown", "--out", markdown ?? ""], heard)).toBe(0);
    await verify([file, "--markdown", review ?? ""], heard);
    for (const path of [text, markdown, review]) expect(readFileSync(path ?? "", "utf8")).not.toMatch(steering);
  });

  it("on the console too, its progress included", () => {
    const { stdout, stderr } = spawnSync(process.execPath, ["src/cli/start.mjs", "verify", file], { encoding: "utf8" });
    expect(stdout).toContain("␛[2J");
    expect(stdout + stderr).not.toMatch(steering);
  });
});
