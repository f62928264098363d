import { createHash } from "node:crypto";
import { readFileSync, readdirSync, rmSync } from "node:fs";
import { join } from "node:path";
import { gzipSync } from "node:zlib";
import { afterAll, beforeAll, describe, expect, inject, it } from "vitest";
import { examples } from "../../src/taskpane/guide/examples";
import { buildAddin, temporaryFolder } from "./build-addin";
import { type Excel, startExcel } from "./excel-stub";

const first = inject("dist");
const second = temporaryFolder();
let excel: Excel;
let ids: string[];

beforeAll(() => {
  excel = startExcel(first);
  ids = (JSON.parse(readFileSync(join(first, "functions.json"), "utf8")) as { functions: { id: string }[] }).functions
    .map(({ id }) => id)
    .sort();
});
afterAll(() => rmSync(second, { recursive: true }));

/** Every file of a folder with a digest of its bytes. */
function digests(folder: string): Record<string, string> {
  const files = readdirSync(folder, { recursive: true, withFileTypes: true }).filter((entry) => entry.isFile());
  return Object.fromEntries(
    files.map((file) => {
      const path = join(file.parentPath, file.name);
      return [path.slice(folder.length), createHash("sha256").update(readFileSync(path)).digest("hex")];
    }),
  );
}

describe("dist", () => {
  it("holds what the manifest and the page ask for", () => {
    expect(Object.keys(digests(first)).sort()).toEqual(
      [
        ...["/functions.js", "/functions.js.map", "/functions.json", "/manifest.xml"],
        ...["/taskpane.css", "/taskpane.css.map", "/taskpane.html", "/taskpane.js", "/taskpane.js.map"],
        ...[16, 32, 64, 80].map((size) => `/assets/icon-${size}.png`),
      ].sort(),
    );
  });

  it("is the same to the last byte in two builds, but for the address that it is built for", async () => {
    expect((await buildAddin({ output: second })).errors).toEqual([]);
    expect(digests(second)).toEqual(digests(first));

    await buildAddin({ output: second, address: "https://example.org/tools/" });
    const moved = digests(second);
    const differing = Object.keys(moved).filter((file) => moved[file] !== digests(first)[file]);
    expect(differing.sort()).toEqual(["/functions.json", "/manifest.xml"]);
    for (const file of differing) {
      const text = readFileSync(join(second, file), "utf8");
      expect(text).not.toContain("localhost");
      expect(text).toContain('"https://example.org/tools/taskpane.html');
    }
  });

  it("says nothing of the machine that built it", () => {
    for (const file of Object.keys(digests(first)))
      expect(readFileSync(join(first, file)).includes(process.cwd())).toBe(false);
  });
});

describe("functions.js", () => {
  it("registers every listed function once, and nothing else", () => {
    expect([...excel.registered].sort()).toEqual(ids);
  });

  it("is at most 50 kB gzipped and makes no code from strings", () => {
    const code = readFileSync(join(first, "functions.js"), "utf8");
    expect(gzipSync(code, { level: 9 }).length).toBeLessThanOrEqual(50_000);
    expect(code).not.toMatch(/\beval\s*\(|\bFunction\s*\(/);
  });

  it("refuses text where a number belongs with an error that Excel can show, naming the argument", () => {
    const result = excel.call("AIRDENSITY", "warm") as { error: string; message: string };
    expect(result.error).toBe("#VALUE!");
    expect(result.message).toContain("temperature");
  });

  it("never lets a bare exception out, whose text Excel would lose", () => {
    const words = Array.from({ length: 8 }, () => "no such value");
    for (const id of ids) expect(() => excel.call(id, ...words), id).not.toThrow();
  });
});

/**
 * The page's examples, called as Excel calls them. The figures were worked out apart, from the
 * formulas of ISO 9972:2015 (logs, centred sums) in another language, not read off the functions.
 */
describe("the examples on the page give what the page says", () => {
  it.each(Object.entries(examples))("%s", (id, example) => {
    const result = excel.call(id, ...example.arguments);
    for (const [index, part] of example.gives.split("; ").entries()) {
      const [, symbol, shown] = /^(?:(\w+) = )?(\S+)/.exec(part) ?? [];
      if (shown === undefined) throw new Error(`${id}: "${part}" shows no value`);
      const value = symbol ? rowOf(result, symbol) : shownIn([result].flat(2)[index]);
      const decimals = shown.split(".")[1]?.length ?? 0;
      expect(typeof value === "number" ? value.toFixed(decimals) : value, part).toBe(shown);
    }
  });

  /** What a cell shows: of a card, its number. */
  function shownIn(cell: unknown): unknown {
    return typeof cell === "object" && cell !== null && "basicValue" in cell ? cell.basicValue : cell;
  }

  /** A table's rows hold what it is, symbol, value, …; a row is known by its symbol. */
  function rowOf(result: unknown, symbol: string): unknown {
    return (result as unknown[][]).find((row) => row[1] === symbol)?.[2];
  }
});
