import { spawn, spawnSync } from "node:child_process";
import { mkdirSync, mkdtempSync, readdirSync, rmSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
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
    const { status, stdout, stderr } = spawnSync(process.execPath, [...readOnly, "src/cli/start.mjs", name, ...given], {
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
