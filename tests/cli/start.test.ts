import { spawn, spawnSync } from "node:child_process";
import { cpSync, mkdirSync, mkdtempSync, readdirSync, readFileSync, rmSync, symlinkSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { join, resolve } from "node:path";
import { afterAll, describe, expect, it } from "vitest";
import { sheetOf } from "../workbook/file/package";
import { slow } from "../time-outs";

const folder = mkdtempSync(join(tmpdir(), "start-"));
afterAll(() => rmSync(folder, { recursive: true, force: true }));
const file = join(folder, "house.xlsx");
writeFileSync(file, sheetOf('<row r="1"><c r="A1"><v>1</v></c><c r="B1"><f>A1+1</f><v>2</v></c></row>'));
const many = join(folder, "many");
mkdirSync(many);
for (const name of ["a", "b", "c"])
  writeFileSync(join(many, `${name}.xlsx`), sheetOf('<row r="1"><c r="A1"><f>1+1</f><v>2</v></c></row>'));

/** A copy of the commands whose joined modules no other test shares. */
const project = join(folder, "project");
const command = join(project, "src/cli/recalc/command.ts");
const kept = join(project, "node_modules/.cache/stillair");
for (const part of ["src", "sample-workbooks/blank"]) cpSync(part, join(project, part), { recursive: true });
cpSync("package.json", join(project, "package.json"));
mkdirSync(join(project, "node_modules"));
for (const name of readdirSync("node_modules"))
  if (name !== ".cache") symlinkSync(resolve("node_modules", name), join(project, "node_modules", name));
const start = join(project, "src/cli/start.mjs");

function showHelp(): string {
  const { status, stdout, stderr } = spawnSync(process.execPath, [start, "recalc", "--help"], { encoding: "utf8" });
  expect([status, stderr]).toEqual([0, ""]);
  return stdout.split("\n")[0]!;
}

describe("the joined module of a command", { timeout: slow }, () => {
  it("is kept whole by starts at the same time, and used again", async () => {
    const starts = [1, 2, 3].map(() => spawn(process.execPath, [start, "recalc", file], { stdio: "ignore" }));
    const codes = await Promise.all(starts.map((one) => new Promise((end) => one.once("exit", end))));
    expect(codes).toEqual([0, 0, 0]);
    const [module, ...others] = readdirSync(kept);
    expect(others).toEqual([]);
    writeFileSync(join(kept, module!), 'console.log("kept");');
    expect(showHelp()).toBe("kept");
  });

  it("is made anew after any change of the sources or the packages", () => {
    writeFileSync(command, readFileSync(command, "utf8").replace("Recalculates workbooks", "Changes workbooks"));
    expect(showHelp()).toMatch(/^Changes workbooks/);
    const packages = join(project, "node_modules/.package-lock.json");
    const installed = readFileSync(packages);
    const before = readdirSync(kept).length;
    rmSync(packages);
    writeFileSync(packages, `${installed.toString()}\n`);
    expect(showHelp()).toMatch(/^Changes workbooks/);
    expect(readdirSync(kept)).toHaveLength(before + 1);
  });

  it("is not replaced by an older one where the sources cannot be joined", () => {
    writeFileSync(command, "not a module");
    const { status, stdout, stderr } = spawnSync(process.execPath, [start, "recalc", "--help"], { encoding: "utf8" });
    expect([status, stdout]).toEqual([3, ""]);
    expect(stderr).toMatch(/^recalc: the command does not start \(.*\)\n$/);
    cpSync("src", join(project, "src"), { recursive: true });
  });

  it("gives way to the sources for developers, so that a fault is shown with its place in them", () => {
    writeFileSync(
      command,
      readFileSync(command, "utf8").replace("if (options.help)", 'if (options.help) throw new RangeError("odd");\n$&'),
    );
    const { stderr } = spawnSync(process.execPath, [start, "recalc", "--help"], {
      encoding: "utf8",
      env: { ...process.env, NODE_DEBUG: "stillair" },
    });
    expect(stderr).toMatch(/src\/cli\/recalc\/command\.ts:\d+:\d+/);
    cpSync("src", join(project, "src"), { recursive: true });
  });
});

describe("commands as programs", { timeout: slow }, () => {
  // The name of the option changed when it was no longer an experiment.
  const [major = 0] = process.versions.node.split(".").map(Number);
  const readOnly = [
    major < 24 ? "--experimental-permission" : "--permission",
    "--allow-fs-read=*",
    "--allow-child-process",
    "--allow-worker",
  ];

  it.each([
    ["recalc", [file]],
    ["verify", [many]],
    ["trace", [file, "Sheet1!B1"]],
    ["graph", [file, "--list"]],
    ["issue-copy", ["--help"]],
    ["new", ["--help"]],
  ])("%s starts where nothing may be written, by any user", (name, given) => {
    rmSync(kept, { recursive: true, force: true });
    const { status, stdout, stderr } = spawnSync(process.execPath, [...readOnly, start, name, ...given], {
      encoding: "utf8",
    });
    const problems = stderr
      .split("\n")
      .filter((line) => !/^verify \[|^\(node|ExperimentalWarning|--trace-warnings|^$/.test(line));
    expect([status, problems]).toEqual([0, []]);
    expect(stdout).not.toBe("");
  });

  it.each(["SIGINT", "SIGTERM", "SIGKILL"] as const)("%s leaves nothing behind", async (signal) => {
    const temporary = mkdtempSync(join(folder, "tmp-"));
    const child = spawn(process.execPath, ["src/cli/start.mjs", "verify", "sample-workbooks"], {
      env: { ...process.env, TMPDIR: temporary },
      stdio: ["ignore", "ignore", "pipe"],
    });
    // The first line of progress says that the command is at work.
    const ended = new Promise((resolve) => child.once("exit", resolve));
    await Promise.race([new Promise((resolve) => child.stderr.once("data", resolve)), ended]);
    child.kill(signal);
    await ended;
    expect(child.signalCode).toBe(signal);
    const cached = readdirSync("node_modules/.cache", { recursive: true, encoding: "utf8" });
    expect(readdirSync(temporary)).toEqual([]);
    expect(cached.filter((name) => name.includes(`-${String(child.pid)}.`))).toEqual([]);
  });
});
