import { spawnSync } from "node:child_process";
import { cpSync, existsSync, mkdirSync, mkdtempSync, readFileSync, rmSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { afterEach, beforeEach, describe, expect, it } from "vitest";
import { slow } from "../time-outs";

/** In place of npm: notes what it is asked and where, and answers as the environment says. */
const npm = `#!/usr/bin/env bash
echo "$* in $PWD of" $(ls ..) "with" $(ls -A) "tools \${SCHEMA_TOOLS:-none}" >> "$NOTES"
case "$*" in
  ci) exit \${CI_CODE:-0} ;;
  "run recalc -- sample-workbooks/final-test.xlsx") exit \${RECALC_CODE:-0} ;;
  test) printf "some test\\n\${TEST_SAYS-5 passed, 0 failed}\\n"; exit \${TEST_CODE:-0} ;;
  "run fuzz -- --minutes 3") printf "\${FUZZ_SAYS-10 passed, 0 failed}\\n"; exit \${FUZZ_CODE:-0} ;;
  "run test:reference -- "*) echo "2 passed, 0 failed" ;;
  *) exit 9 ;;
esac
`;

let folder: string;
beforeEach(() => {
  folder = mkdtempSync(join(tmpdir(), "ci-"));
  for (const name of ["bin", "project/.ci", "project/node_modules"]) mkdirSync(join(folder, name), { recursive: true });
  cpSync(".ci/run", join(folder, "project/.ci/run"));
  writeFileSync(join(folder, "bin/npm"), npm, { mode: 0o755 });
  writeFileSync(join(folder, "project/later"), "not committed");
});
afterEach(() => rmSync(folder, { recursive: true }));

/** Runs .ci/run with npm as above; each note is a call of npm. */
function run(settings: Record<string, string> = {}) {
  const env = { ...process.env, SCHEMA_TOOLS: "", PATH: `${join(folder, "bin")}:${process.env["PATH"] ?? ""}` };
  const notes = join(folder, "notes");
  const { status, stdout } = spawnSync("bash", [join(folder, "project/.ci/run")], {
    encoding: "utf8",
    env: { ...env, NOTES: notes, ...settings },
  });
  const calls = existsSync(notes) ? readFileSync(notes, "utf8").trim().split("\n") : [];
  return { status, last: stdout.trimEnd().split("\n").at(-1), stdout, calls };
}

function commit(): void {
  const identity = ["-c", "user.name=A. Tester", "-c", "user.email=tester@example.org"];
  for (const step of [
    ["init", "-q"],
    ["add", ".ci"],
    [...identity, "commit", "-qm", "Start"],
  ])
    expect(spawnSync("git", step, { cwd: join(folder, "project") }).status).toBe(0);
}

describe(".ci/run", { timeout: slow }, () => {
  it("runs both commands on a clone with nothing beside it, counts the main job, and clears it away", () => {
    commit();
    const { status, last, stdout, calls } = run();
    expect([status, last]).toEqual([0, "16 passed, 0 failed"]);
    expect(stdout).toContain("not committed");
    expect(calls.map((call) => call.split(" in ")[0])).toEqual([
      "ci",
      "run recalc -- sample-workbooks/final-test.xlsx",
      "test",
      "run fuzz -- --minutes 3",
    ]);
    for (const call of calls) {
      const place = / in (\S+) of stillair with \.ci \.git tools none$/.exec(call)?.[1] ?? "";
      expect(place).not.toBe("");
      expect(place.startsWith(folder)).toBe(false);
      expect(existsSync(place)).toBe(false);
    }
  });

  it("copies what is no git repository, without installed packages", () => {
    const { last, calls } = run();
    expect(last).toBe("16 passed, 0 failed");
    expect(calls[0]).toMatch(/of stillair with \.ci later tools none$/);
  });

  it("tries real workbooks and whole schemas where they lie beside the checkout", () => {
    const shared = join(folder, "shared");
    for (const name of ["reference/workbooks", "tools"]) mkdirSync(join(shared, name), { recursive: true });
    const { last, calls } = run();
    expect(last).toBe("18 passed, 0 failed");
    expect(calls[2]).toMatch(new RegExp(`^test in .*tools ${shared}/tools$`));
    expect(calls[4]).toMatch(new RegExp(`^run test:reference -- ${shared}/reference/workbooks in `));
  });

  it.each([
    ["the installation", { CI_CODE: "1" }, "0 passed, 1 failed"],
    ["the main job", { RECALC_CODE: "1" }, "15 passed, 1 failed"],
    ["tests", { TEST_SAYS: "3 passed, 2 failed", TEST_CODE: "1" }, "14 passed, 2 failed"],
    ["a test run without a count", { TEST_SAYS: "" }, "11 passed, 1 failed"],
    ["a test run that ends badly", { TEST_CODE: "1" }, "16 passed, 1 failed"],
    ["a finding", { FUZZ_SAYS: "9 passed, 1 failed", FUZZ_CODE: "1" }, "15 passed, 1 failed"],
  ])("fails with %s", (_, settings, expected) => {
    const { status, last } = run(settings);
    expect([status, last]).toEqual([1, expected]);
  });
});
