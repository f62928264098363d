import { execFileSync } from "node:child_process";
import { mkdirSync, mkdtempSync, readFileSync, rmSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";

/** LibreOffice recomputes a workbook on opening only where its profile says so; unasked it keeps what is stored, but no text of a formula. */
const modes = { all: 0, unasked: 1 } as const;

const profileThat = (recomputes: keyof typeof modes) => `<?xml version="1.0" encoding="UTF-8"?>
<oor:items xmlns:oor="http://openoffice.org/2001/registry">
<item oor:path="/org.openoffice.Office.Calc/Formula/Load"><prop oor:name="OOXMLRecalcMode" oor:op="fuse"><value>${modes[recomputes]}</value></prop></item>
</oor:items>`;

/** Workbooks by file name, as LibreOffice saves them after recomputing every formula, or what it recomputes unasked; one start for all. */
export function recomputedByLibreOffice(
  workbooks: ReadonlyMap<string, Uint8Array>,
  recomputes: keyof typeof modes = "all",
): Map<string, Uint8Array> {
  const folder = mkdtempSync(join(tmpdir(), "recomputed-"));
  try {
    mkdirSync(join(folder, "profile", "user"), { recursive: true });
    writeFileSync(join(folder, "profile", "user", "registrymodifications.xcu"), profileThat(recomputes));
    const files = [...workbooks].map(([name, bytes]) => {
      writeFileSync(join(folder, name), bytes);
      return join(folder, name);
    });
    const profile = `-env:UserInstallation=file://${join(folder, "profile")}`;
    const target = ["--convert-to", "xlsx:Calc MS Excel 2007 XML", "--outdir", join(folder, "out"), ...files];
    execFileSync("soffice", [profile, "--headless", ...target], { stdio: "ignore", timeout: 580_000 });
    return new Map(
      [...workbooks.keys()].map((name) => [name, new Uint8Array(readFileSync(join(folder, "out", name)))]),
    );
  } finally {
    rmSync(folder, { recursive: true, force: true });
  }
}
