import { copyFileSync, mkdtempSync, readFileSync, rmSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { afterAll, describe, expect, it } from "vitest";
import { testResult } from "../../src/functions/index";
import { runRecalcCommand } from "../../src/cli/recalc/command";
import { checks } from "../../src/workbook/verify/checks/index";
import { listening } from "./listening";
import { slow } from "../time-outs";

const readme = readFileSync("README.md", "utf8");
const sample = "sample-workbooks/final-test.xlsx";
const folder = mkdtempSync(join(tmpdir(), "readme-"));
afterAll(() => rmSync(folder, { recursive: true, force: true }));
copyFileSync(sample, join(folder, "my-test.xlsx"));

/** The arguments of every `npm run recalc -- …` that the README shows, in code of a line or within a sentence. */
const commands = [...readme.matchAll(/npm run recalc -- ([^\n`]+)/g)].map(([, given = ""]) => given.trim());

interface WhatIf {
  readonly cautions: unknown[];
  readonly set: { before: unknown; after: unknown }[];
  readonly changed: unknown[];
  readonly summary: unknown[];
}

/** As a shell splits them; only single quotes occur. The reader's own workbook is a copy of the sample. */
function split(given: string): string[] {
  return [...given.matchAll(/'([^']*)'|(\S+)/g)].map(([, quoted, plain = ""]) =>
    (quoted ?? plain).replace(/^my-test/, join(folder, "my-test")),
  );
}

function recalc(given: readonly string[]): { code: number; out: string; err: string } {
  const { output, heard } = listening();
  const code = runRecalcCommand(given, output);
  return { code, ...heard() };
}

it.each([
  ["README.md", /(\d+) checks of a workbook/],
  ["DEVELOPERS.md", /the (\d+) checks of `verify`/],
  ["DEVELOPERS.md", /on its (\d+) questions/],
  ["src/taskpane/help/commands.md", /runs (\d+) checks/],
])("%s states how many checks verify has", (file, stated) =>
  expect(Number(stated.exec(readFileSync(file, "utf8"))?.[1])).toBe(checks.length),
);

describe("the page's list of settings that take words", { timeout: slow }, () => {
  const page = readFileSync("src/taskpane/help/settings.md", "utf8");
  const words = new Map<string, string[]>();
  for (const [, label = "", word = ""] of page.matchAll(/^\| `([a-z ]+)` \| ([^|]+) \| [^|]+ \|$/gm))
    words.set(label, [...(words.get(label) ?? []), word]);
  const rows = [...words].map(([label, taken]) => [label, taken.join(", ")] as const);

  it("has a row for each that most tests need", () => {
    expect(rows.map(([label]) => label)).toEqual(
      expect.arrayContaining(["flow basis", "standard", "technique", "units"]),
    );
  });

  it.each(rows)("names the words of %s, all and in order", (label, words) => {
    try {
      testResult("depressurization", [[-50]], [[300]], [[-1]], undefined, [[label, "?"]]);
      expect.unreachable();
    } catch (refusal) {
      expect((refusal as Error).message).toBe(`settings, row 1: ${label}: "?" is not one of: ${words}`);
    }
  });
});

describe("the README's own examples", { timeout: slow }, () => {
  it("show the sample, a copy, a what-if and the help", () => {
    const all = commands.join("\n");
    for (const part of [sample, "--out", "--set", "--help"]) expect(all).toContain(part);
  });

  it.each(commands)("%s", (given) => {
    expect(recalc(split(given))).toMatchObject({ code: 0, err: "" });
  });

  it("the what-if sets a number that the cell takes, and results change", () => {
    const example = commands.find((given) => given.includes("--set")) ?? "";
    const { workbooks } = JSON.parse(recalc([...split(example), "--json"]).out) as { workbooks: WhatIf[] };
    const [workbook] = workbooks as [WhatIf];
    expect(workbook.cautions).toEqual([]);
    expect(workbook.set).toEqual([
      { cell: expect.any(String) as string, before: expect.any(Number) as number, after: expect.any(Number) as number },
    ]);
    expect(workbook.changed.length).toBeGreaterThan(10);
    expect(workbook.summary).not.toEqual([]);
  });

  it("the printed lines are those of the sample, but for a line of dots", () => {
    const block = readme.split(`    ${sample}\n`)[1]?.split("\n\n")[0] ?? "";
    const expected = block.split("\n").map((line) => line.replace(/^ {4}/, ""));
    const printed = recalc([sample]).out.trimEnd().split("\n").slice(1);
    const dots = expected.findIndex((line) => line.trim() === "…");
    expect(dots).toBeGreaterThan(0);
    expect(printed.slice(0, dots)).toEqual(expected.slice(0, dots));
    for (const line of expected.slice(dots + 1)) {
      expect(printed.map((text) => text.replace(/\s+/g, " "))).toContain(line.replace(/\s+/g, " "));
    }
  });
});
