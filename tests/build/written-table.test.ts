import { copyFileSync, mkdtempSync, readFileSync, rmSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { afterAll, describe, expect, it } from "vitest";
import { runClausesFromMemoryCommand } from "../../src/cli/metadata/clauses-from-memory";
import { profiles, standards } from "../../src/core/index";

const folder = mkdtempSync(join(tmpdir(), "stillair-table-"));
afterAll(() => rmSync(folder, { recursive: true }));

const original = new URL("../../DEVELOPERS.md", import.meta.url).pathname;
const text = readFileSync(original, "utf8");

function changed(change: (text: string) => string): string {
  const file = join(folder, "DEVELOPERS.md");
  copyFileSync(original, file);
  writeFileSync(file, change(text));
  return file;
}

describe("the table of what the standards' profiles hold from memory", () => {
  it("is current", () => expect(runClausesFromMemoryCommand(original, true)).toEqual({ succeeded: true, lines: [] }));

  it("names the words of every limit from memory", () => {
    for (const standard of standards) {
      for (const { mark, find, clause } of Object.values(profiles[standard].checks)) {
        const row = `| ${clause} | “${find}” |`;
        expect([row, text.includes(row)]).toEqual([row, mark === "M"]);
      }
    }
  });

  it("is found to be another, and written anew", () => {
    const file = changed((whole) => whole.replace("count_dp0 ≥ 10", "count_dp0 ≥ 9"));
    const checked = runClausesFromMemoryCommand(file, true);
    expect(checked.succeeded).toBe(false);
    expect(checked.lines[0]).toMatch(/its table of what is from memory is not current; run "npm run metadata"$/);
    expect(readFileSync(file, "utf8")).not.toBe(text);
    expect(runClausesFromMemoryCommand(file, false).succeeded).toBe(true);
    expect(readFileSync(file, "utf8")).toBe(text);
  });

  it("is missed where it was taken away", () => {
    const file = changed((whole) => whole.replace("| words to look for |", "| words |"));
    expect(runClausesFromMemoryCommand(file, false).lines[0]).toMatch(
      /its table of what is from memory is not where it was$/,
    );
  });
});
