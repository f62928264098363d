import { spawnSync } from "node:child_process";
import fs, { linkSync, mkdtempSync, readdirSync, readFileSync, rmSync, symlinkSync, writeFileSync } from "node:fs";
import { syncBuiltinESMExports } from "node:module";
import { tmpdir } from "node:os";
import { basename, join } from "node:path";
import { afterEach, beforeEach, describe, expect, it } from "vitest";
import { issueCopyCommand } from "../../src/cli/issue-copy/command";
import { runRecalcCommand } from "../../src/cli/recalc/command";
import { FileWriter, type Target } from "../../src/cli/shared/write-file";
import { traceCommand } from "../../src/cli/trace/command";
import { verifyCommand } from "../../src/cli/verify/command";
import { dynamicArrays, sheetOf } from "../workbook/file/package";
import { listening } from "./listening";
import { slow } from "../time-outs";

let folder = "";
beforeEach(() => (folder = mkdtempSync(join(tmpdir(), "writer-"))));
afterEach(() => rmSync(folder, { recursive: true, force: true }));

const workbook = sheetOf(
  '<row r="1"><c r="A1"><v>180</v></c><c r="B1"><v>300</v></c></row>' +
    '<row r="2"><c r="A2" cm="1"><f t="array" ref="A2">_xldudf_STILLAIR_AIRCHANGERATE(A1,B1)</f><v>0.6</v></c></row>',
  { metadata: dynamicArrays },
);

function put(name: string, content: Uint8Array | string): string {
  const path = join(folder, name);
  writeFileSync(path, content);
  return path;
}

const report = (name: string, option = "--out"): Target => ({ option, path: join(folder, name), holds: "a report" });
const text = (name: string) => readFileSync(join(folder, name), "utf8");

/** Lets a function of the file system fail, or do more, while something is done. */
function withChanged<Name extends "linkSync" | "renameSync">(
  name: Name,
  change: (original: (typeof fs)[Name]) => (typeof fs)[Name],
  work: () => void,
): void {
  const original = fs[name];
  fs[name] = change(original);
  syncBuiltinESMExports();
  try {
    work();
  } finally {
    fs[name] = original;
    syncBuiltinESMExports();
  }
}

const failure = (code: string) => Object.assign(new Error(code), { code });

describe("no command writes over the workbook that it reads", { timeout: slow }, () => {
  type Command = (given: readonly string[]) => number | Promise<number>;
  const heard = listening().output;
  const commands: [name: string, write: (input: string, target: string) => readonly string[], run: Command][] = [
    ["recalc --out", (input, target) => [input, "--out", target], (given) => runRecalcCommand(given, heard)],
    ["recalc --html", (input, target) => [input, "--html", target], (given) => runRecalcCommand(given, heard)],
    ["verify --html", (input, target) => [input, "--html", target], (given) => verifyCommand(given, heard, "")],
    ["verify --markdown", (input, target) => [input, "--markdown", target], (given) => verifyCommand(given, heard, "")],
    ["trace --out", (input, target) => [input, "Sheet1!A2", "--out", target], (given) => traceCommand(given, heard)],
    ["issue-copy --out", (input, target) => [input, "--out", target], (given) => issueCopyCommand(given, heard)],
  ];

  it.each(commands)("%s: neither by its own name, nor through a link or a hard link", async (_, given, run) => {
    const input = put("house.backup", workbook);
    symlinkSync(input, join(folder, "link.html"));
    linkSync(input, join(folder, "hard.html"));
    for (const name of ["house.backup", "link.html", "hard.html"]) {
      expect(await run([...given(input, join(folder, name)), "--overwrite"]), name).toBe(2);
      expect(Buffer.compare(readFileSync(input), workbook), name).toBe(0);
    }
  });

  it.each(commands.slice(1, 5))("%s: takes no workbook's name", async (_, given, run) => {
    const input = put("house.backup", workbook);
    expect(await run(given(input, join(folder, "other.xlsx")))).toBe(2);
    expect(readdirSync(folder)).toEqual(["house.backup"]);
  });

  it("verify: none of the workbooks of a folder", async () => {
    put("one.xlsx", workbook);
    const other = put("two.xlsx", workbook);
    linkSync(other, join(folder, "report.html"));
    const { output, heard: said } = listening();
    expect(await verifyCommand([folder, "--html", join(folder, "report.html"), "--overwrite"], output, "")).toBe(2);
    expect(said().err).toContain("names the workbook itself");
  });
});

describe("two writers to one new name", { timeout: slow }, () => {
  const race = () => {
    const [first, second] = [1, 2].map(() => new FileWriter([report("new.html")], [], false));
    first?.write([{ target: report("new.html"), bytes: "first" }]);
    return () => second?.write([{ target: report("new.html"), bytes: "second" }]);
  };

  it("the second fails, though there was no such file when it began", () => {
    expect(race()).toThrow("exists; choose another name or add --overwrite");
    expect(text("new.html")).toBe("first");
  });

  it("nor does it win where the other comes after its last look", () => {
    const writer = new FileWriter([report("new.html")], [], false);
    const write = () => writer.write([{ target: report("new.html"), bytes: "second" }]);
    withChanged(
      "linkSync",
      (link) => (from, to) => {
        put("new.html", "first");
        link(from, to);
      },
      () => expect(write).toThrow("was written by someone else in the meantime"),
    );
    expect(readdirSync(folder)).toEqual(["new.html"]);
    expect(text("new.html")).toBe("first");
  });

  it("nor on a disk that knows no hard links, which is written to all the same", () => {
    const write = () =>
      new FileWriter([report("new.html")], [], false).write([{ target: report("new.html"), bytes: "second" }]);
    withChanged(
      "linkSync",
      () => () => {
        put("new.html", "first");
        throw failure("EPERM");
      },
      () => expect(write).toThrow("was written by someone else in the meantime"),
    );
    expect(text("new.html")).toBe("first");
    rmSync(join(folder, "new.html"));
    withChanged(
      "linkSync",
      () => () => {
        throw failure("EPERM");
      },
      write,
    );
    expect([text("new.html"), readdirSync(folder)]).toEqual(["second", ["new.html"]]);
  });

  it("one file for two options is refused, also under two paths", () => {
    const targets = [
      report("a.html", "--html"),
      { ...report("a.html", "--markdown"), path: join(folder, ".", "x", "..", "a.html") },
    ];
    expect(() => new FileWriter(targets, [], false)).toThrow("--html and --markdown name the same file");
  });
});

describe("files that belong together", { timeout: slow }, () => {
  const targets = () => [report("a.svg"), report("a.png")];
  const write = (overwrite: boolean) => () =>
    new FileWriter(targets(), [], overwrite).write(targets().map((target) => ({ target, bytes: "new" })));

  it.each([false, true])("are both written, replaced or not (overwrite %s)", (overwrite) => {
    if (overwrite) for (const { path } of targets()) put(basename(path), "old");
    write(overwrite)();
    expect(targets().map(({ path }) => readFileSync(path, "utf8"))).toEqual(["new", "new"]);
    expect(readdirSync(folder)).toEqual(["a.png", "a.svg"]);
  });

  it("are both as before where the second cannot take its name", () => {
    for (const { path } of targets()) put(basename(path), "old");
    const failing: (original: typeof fs.renameSync) => typeof fs.renameSync = (rename) => {
      let calls = 0;
      return (from, to) => {
        if (++calls === 2) throw failure("EIO");
        rename(from, to);
      };
    };
    withChanged("renameSync", failing, () => expect(write(true)).toThrow("a.png cannot be written (EIO)"));
    expect(targets().map(({ path }) => readFileSync(path, "utf8"))).toEqual(["old", "old"]);
    expect(readdirSync(folder)).toEqual(["a.png", "a.svg"]);
  });

  it("are both absent where someone else writes the second meanwhile", () => {
    const meanwhile: (original: typeof fs.linkSync) => typeof fs.linkSync = (link) => (from, to) => {
      if (String(to).endsWith(".png")) put("a.png", "theirs");
      link(from, to);
    };
    withChanged("linkSync", meanwhile, () => expect(write(false)).toThrow("written by someone else"));
    expect([readdirSync(folder), text("a.png")]).toEqual([["a.png"], "theirs"]);
  });
});

describe("a process that is killed before its file takes its name", { timeout: slow }, () => {
  /** Runs a command that dies at its first, second … call of a function of the file system. */
  const killedAt = (name: string, call: number, ...given: string[]) => {
    const script = `import fs from "node:fs";import { syncBuiltinESMExports } from "node:module";
      let calls = 0; const original = fs.${name};
      fs.${name} = (...given) => (++calls === ${call} ? process.kill(process.pid, "SIGKILL") : original(...given));
      syncBuiltinESMExports();`;
    const address = `data:text/javascript,${encodeURIComponent(script)}`;
    return spawnSync(process.execPath, ["--import", address, "src/cli/start.mjs", ...given], { encoding: "utf8" });
  };

  it("leaves the old file whole, and the next start removes what it left", () => {
    const input = put("house.xlsx", workbook);
    put("copy.xlsx", "old");
    const given = [input, "--out", join(folder, "copy.xlsx"), "--overwrite"];
    expect(killedAt("renameSync", 1, "recalc", ...given).signal).toBe("SIGKILL");
    expect([text("copy.xlsx"), readdirSync(folder).length]).toEqual(["old", 3]);
    // Of another program, or of another machine.
    put(".house.xlsx.123.tmp", "");
    put(".stillair-00000000-1-00000000.tmp", "");
    expect(runRecalcCommand(given, listening().output)).toBe(0);
    expect(readdirSync(folder)).toEqual([
      ".house.xlsx.123.tmp",
      ".stillair-00000000-1-00000000.tmp",
      "copy.xlsx",
      "house.xlsx",
    ]);
  });

  it("never leaves a new drawing beside an old picture", () => {
    const name = join(folder, "a");
    for (const ending of [".svg", ".png"]) put(`a${ending}`, "old");
    const given = ["sample-workbooks/final-test.xlsx", "--out", name, "--overwrite"];
    const cell = ["--cell", "'Depressurization'!Z7"];
    expect(killedAt("renameSync", 2, "graph", ...given, ...cell).signal).toBe("SIGKILL");
    expect(readdirSync(folder).filter((entry) => entry.startsWith("a."))).toEqual(["a.svg"]);
  });
});
