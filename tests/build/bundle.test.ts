import { spawnSync } from "node:child_process";
import { createHash } from "node:crypto";
import { cpSync, readFileSync, readdirSync, realpathSync, rmSync, symlinkSync } from "node:fs";
import { join } from "node:path";
import { gzipSync } from "node:zlib";
import { afterAll, beforeAll, describe, expect, inject, it } from "vitest";
import { iconNames, iconSizes } from "../../src/cli/build/icons";
import { examples } from "../../src/functions/examples";
import { buildAddin, temporaryFolder } from "./build-addin";
import { type Excel, startExcel } from "./excel-stub";
import { slow } from "../time-outs";

/** Every file of the add-in in a folder with a digest of its bytes; the review page and its worker, built beside it, have their own tests. */
function digests(folder: string): Record<string, string> {
  const files = readdirSync(folder, { recursive: true, withFileTypes: true }).filter(
    (entry) => entry.isFile() && !/^(reader|reviewer)/.test(entry.name),
  );
  return Object.fromEntries(
    files.map((file) => {
      const path = join(file.parentPath, file.name);
      return [path.slice(folder.length), createHash("sha256").update(readFileSync(path)).digest("hex")];
    }),
  );
}

/** A build's functions.json. */
function metadataIn(folder: string): { functions: { id: string; helpUrl: string }[] } {
  return JSON.parse(readFileSync(join(folder, "functions.json"), "utf8")) as ReturnType<typeof metadataIn>;
}

/** The build that all tests share, that for an Excel bought once, and one for a second try. */
const folders = { "365": inject("dist"), perpetual: temporaryFolder(), again: temporaryFolder() };
let excel: Excel;
let ids: string[];

beforeAll(async () => {
  expect((await buildAddin({ excel: "perpetual", output: folders.perpetual })).errors).toEqual([]);
  excel = startExcel(folders["365"]);
  ids = metadataIn(folders["365"])
    .functions.map(({ id }) => id)
    .sort();
}, slow);
afterAll(() => {
  for (const folder of [folders.perpetual, folders.again]) rmSync(folder, { recursive: true });
});

describe.each(["365", "perpetual"] as const)("the build %s", { timeout: slow }, (build) => {
  it("holds what the manifest and the page ask for", () => {
    expect(Object.keys(digests(folders[build])).sort()).toEqual(
      [
        ...["/functions.js", "/functions.js.map", "/functions.json", "/manifest.xml"],
        ...["/taskpane.css", "/taskpane.css.map", "/taskpane.html", "/taskpane.js", "/taskpane.js.map"],
        ...[
          "/LICENSE.txt",
          "/NOTICE.txt",
          "/shortcuts.json",
          "/support.html",
          "/help/index.html",
          "/help/settings.html",
        ],
        ...metadataIn(folders[build]).functions.map(({ id }) => `/help/${id}.html`),
        ...readdirSync("sample-workbooks/blank").map((name) => `/forms/${name}`),
        ...iconNames.flatMap((name) => iconSizes.map((size) => `/assets/${name}-${size}.png`)),
      ].sort(),
    );
  });

  it("has every file whose address the manifest and the list of functions give", () => {
    const files = Object.keys(digests(folders[build]));
    const text = ["manifest.xml", "functions.json"]
      .map((file) => readFileSync(join(folders[build], file), "utf8"))
      .join("\n");
    const asked = [...text.matchAll(/"https:\/\/localhost:3000(\/[^"]+)"/g)].map(([, path = ""]) => path);
    for (const path of asked) expect(files).toContain(path);
    for (const { id, helpUrl } of metadataIn(folders[build]).functions)
      expect(helpUrl).toBe(`https://localhost:3000/help/${id}.html`);
  });

  it("carries the licence of the project and of what others wrote in it", () => {
    const read = (file: string) => readFileSync(join(folders[build], file), "utf8");
    expect(read("LICENSE.txt")).toBe(readFileSync("LICENSE", "utf8"));
    expect(read("NOTICE.txt")).toContain(readFileSync("node_modules/webpack/LICENSE", "utf8").trim());
  });

  it("asks for each script by the digest of its content", () => {
    const page = readFileSync(join(folders[build], "taskpane.html"), "utf8");
    const asked = [...page.matchAll(/src="?(\w+\.js)\?(\w+)/g)].map(([, file = "", query]) => [file, query]);
    expect(asked).toEqual(
      ["functions.js", "taskpane.js"].map((file) => [file, digests(folders[build])[`/${file}`]?.slice(0, 20)]),
    );
  });

  it("says nothing of the machine that built it", () => {
    for (const file of Object.keys(digests(folders[build])))
      expect(readFileSync(join(folders[build], file)).includes(process.cwd())).toBe(false);
  });

  it("asks for one set of the functions' runtime in its manifest and on its page, and takes errors by one flag", () => {
    const read = (file: string) => readFileSync(join(folders[build], file), "utf8");
    const runtime = build === "365" ? "1.4" : "1.2";
    const flag = build === "365" ? "allowCustomDataForDataTypeAny" : "allowErrorForDataTypeAny";
    expect(read("manifest.xml")).toContain(`<Set Name="CustomFunctionsRuntime" MinVersion="${runtime}"/>`);
    expect(/ data-runtime="?([\d.]+)/.exec(read("taskpane.html"))?.[1]).toBe(runtime);
    expect(Object.keys(metadataIn(folders[build])).filter((key) => key.startsWith("allow"))).toEqual([flag]);
  });

  it("lists on its page what it registers", () => {
    const page = readFileSync(join(folders[build], "taskpane.html"), "utf8");
    // What functions.json leaves out while one types: equations and sources.
    expect(page).toContain("0.37802");
    expect(readFileSync(join(folders[build], "functions.json"), "utf8")).not.toContain("0.37802");
    const shown = [...page.matchAll(/<details class="?function"? id="?(\w+)/g)];
    expect(shown.map(([, id]) => id).sort()).toEqual([...startExcel(folders[build]).registered].sort());
  });
});

// In another process too; that two builds of one process agree is seen below, where only the address differs.
it("a second build, in another folder, is the same to the last byte", { timeout: slow }, () => {
  const elsewhere = temporaryFolder();
  try {
    for (const name of ["src", "webpack.config.js", "package.json", "tsconfig.json", "manifest.xml", "LICENSE"])
      cpSync(name, join(elsewhere, name), { recursive: true });
    cpSync("sample-workbooks/blank", join(elsewhere, "sample-workbooks/blank"), { recursive: true });
    symlinkSync(realpathSync("node_modules"), join(elsewhere, "node_modules"));
    const webpack = ["--import", "tsx", "node_modules/webpack/bin/webpack.js", "--config-name", "add-in"];
    const { status, stdout } = spawnSync(process.execPath, webpack, { cwd: elsewhere, encoding: "utf8" });
    expect(status, stdout).toBe(0);
    expect(digests(join(elsewhere, "dist"))).toEqual(digests(folders["365"]));
  } finally {
    rmSync(elsewhere, { recursive: true });
  }
});

it("another address changes the list of functions and the manifest, nothing else", { timeout: slow }, async () => {
  const { again } = folders;
  await buildAddin({ output: again, address: "https://example.org/tools/" });
  const [built, moved] = [digests(folders["365"]), digests(again)];
  const differing = Object.keys(moved).filter((file) => moved[file] !== built[file]);
  expect(differing.sort()).toEqual(["/functions.json", "/manifest.xml"]);
  for (const file of differing) {
    const text = readFileSync(join(again, file), "utf8");
    expect(text).not.toContain("localhost");
    expect(text).toMatch(/"https:\/\/example\.org\/tools\/help\/\w+\.html"/);
  }
});

describe("the build for an Excel that was bought once", { timeout: slow }, () => {
  it("has every function but the one whose result such an Excel cannot hold", () => {
    const { registered } = startExcel(folders.perpetual);
    expect([...registered].sort()).toEqual(ids.filter((id) => id !== "RESULTCARD"));
    expect(metadataIn(folders.perpetual).functions.map(({ id }) => id)).toEqual([...registered].sort());
  });
});

describe("functions.js", { timeout: slow }, () => {
  it("registers every listed function once, and nothing else", () => {
    expect([...excel.registered].sort()).toEqual(ids);
  });

  it("is at most 60 kB gzipped and makes no code from strings", () => {
    const code = readFileSync(join(folders["365"], "functions.js"), "utf8");
    expect(gzipSync(code, { level: 9 }).length).toBeLessThanOrEqual(60_000);
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
describe("the examples on the page give what the page says", { timeout: slow }, () => {
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
