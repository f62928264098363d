import { spawnSync } from "node:child_process";
import { existsSync, readFileSync, readdirSync, writeFileSync } from "node:fs";
import { join } from "node:path";
import { describe, expect, it } from "vitest";
import { findBundleProblems, findPaneProblems } from "../../src/cli/build/checks-plugin";
import { runMetadataCommand } from "../../src/cli/metadata/command";
import { buildAddin, folderOfTest } from "./build-addin";
import { slow } from "../time-outs";

const register = `CustomFunctions.associate("ONEMORE", () => 1);\n`;

/** Builds an add-in of one made-up function and gives what the build complains of. */
async function complaints(files: Record<string, string>): Promise<{ errors: readonly string[]; written: string[] }> {
  const functions = folderOfTest();
  const output = folderOfTest();
  const listed = [{ id: "ONEMORE", name: "ONEMORE", description: "One.", parameters: [] }];
  writeFileSync(join(functions, "functions.json"), JSON.stringify({ functions: listed }));
  for (const [name, text] of Object.entries(files)) writeFileSync(join(functions, name), text);
  const { errors } = await buildAddin({ functions, output });
  return { errors, written: readdirSync(output) };
}

describe("the build", { timeout: slow }, () => {
  it("passes a small sound add-in, so that the failure below has one cause", async () => {
    const { errors, written } = await complaints({ "associate.ts": register });
    expect(errors).toEqual([]);
    expect(written).toContain("functions.js");
  });

  // Found in practice: webpack drops a module imported for its effect alone where package.json promises that there is none.
  it("fails on registrations dropped by a promise of no side effects, and writes nothing", async () => {
    const { errors, written } = await complaints({
      "package.json": `{ "sideEffects": false }`,
      "register.ts": `${register}export {};\n`,
      "associate.ts": `import "./register";\n`,
    });
    expect(errors).toEqual(["ONEMORE is listed in functions.json, but functions.js does not register it"]);
    expect(written).toEqual([]);
  });

  it.each([
    ["http://example.org", "is not https"],
    ["example.org", "is not an address"],
    ["https://example.org/?a=1", "more than a host and a path"],
  ])("refuses the address %s", async (address, expected) => {
    await expect(buildAddin({ address, output: join(folderOfTest(), "dist") })).rejects.toThrow(expected);
  });

  it.each(["2019", "", "Perpetual"])("refuses the Excel %j, naming the two that there are", async (excel) => {
    await expect(buildAddin({ excel, output: join(folderOfTest(), "dist") })).rejects.toThrow(
      /^EXCEL: ".*" is not an Excel this add-in is built for; write 365 .* or perpetual/,
    );
  });
});

describe("what the build checks in functions.js", { timeout: slow }, () => {
  /** Letters that gzip cannot shorten much, the same in every run: a linear congruential row. */
  function noise(length: number): string {
    let state = 1;
    return Array.from({ length }, () => {
      state = (state * 48_271) % 2_147_483_647;
      return String.fromCharCode(97 + (state % 26));
    }).join("");
  }

  it("nothing in a sound file", () => expect(findBundleProblems(register, ["ONEMORE"])).toEqual([]));

  it.each([
    [
      "a listed function that nothing registers",
      register,
      ["ONEMORE", "TWOMORE"],
      "TWOMORE is listed in functions.json",
    ],
    ["a registered function that is not listed", register, [], "ONEMORE is registered by functions.js, but not listed"],
    ["a function registered twice", register + register, ["ONEMORE"], "ONEMORE is registered more than once"],
    ["code made from strings, run", `${register}new Function("return 1")();`, ["ONEMORE"], "does not start: EvalError"],
    [
      "code made from strings, not run",
      `${register}const f = () => eval("1");`,
      ["ONEMORE"],
      "makes code from strings",
    ],
    ["a file that leans on a window", `${register}document.title = "x";`, ["ONEMORE"], "document is not defined"],
    ["more than 60 kB gzipped", `${register}"${noise(120_000)}";`, ["ONEMORE"], "bytes gzipped, more than 60000"],
  ])("%s", (_fault, code, listed, expected) => {
    expect(findBundleProblems(code, listed).join("\n")).toContain(expected);
  });
});

describe("what the build checks in taskpane.js", { timeout: slow }, () => {
  it("that it registers no function a second time", () => {
    expect(findPaneProblems(register)).toEqual(["taskpane.js registers functions, which functions.js does already"]);
    expect(findPaneProblems(`document.title = "x";`)).toEqual([]);
  });
});

describe("npm run build", { timeout: slow }, () => {
  const scripts = (JSON.parse(readFileSync("package.json", "utf8")) as { scripts: Record<string, string> }).scripts;

  it("asks first whether functions.json is current", () => {
    expect(scripts["build"]).toMatch(/^npm run --silent metadata -- --check && /);
  });

  it("stops where functions.json is not what the sources say, and leaves it alone", async () => {
    const folder = folderOfTest();
    const target = join(folder, "functions.json");
    writeFileSync(
      join(folder, "plain.ts"),
      `/**\n * One more than nothing.\n * @customfunction\n */\nexport function oneMore(): number {\n  return 1;\n}\n`,
    );
    writeFileSync(join(folder, "index.ts"), `export { oneMore } from "./plain";\n`);

    const missing = await runMetadataCommand(folder, true);
    expect(missing.succeeded).toBe(false);
    expect(missing.lines.join()).toContain("is not current");
    expect(existsSync(target)).toBe(false);

    expect((await runMetadataCommand(folder, false)).succeeded).toBe(true);
    expect((await runMetadataCommand(folder, true)).succeeded).toBe(true);

    writeFileSync(target, "{}\n");
    expect((await runMetadataCommand(folder, true)).succeeded).toBe(false);
    expect(readFileSync(target, "utf8")).toBe("{}\n");
  });

  it("ends with a failing exit code and the reason, one line each", () => {
    const folder = folderOfTest();
    writeFileSync(join(folder, "index.ts"), `export { oneMore } from "./plain";\n`);
    const run = spawnSync("node", ["--import", "tsx", "src/cli/metadata.ts", "--check", "--folder", folder], {
      encoding: "utf8",
    });
    expect(run.status).toBe(1);
    expect(run.stderr).toMatch(/^metadata: .*no function carries @customfunction\n$/);
  });
});
