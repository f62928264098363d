import { execFileSync } from "node:child_process";
import { mkdirSync, mkdtempSync, readFileSync, rmSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";

/** LibreOffice recomputes a workbook on opening only where its profile says so: 0 is "always". */
const recomputeOnLoad = `<?xml version="1.0" encoding="UTF-8"?>
<oor:items xmlns:oor="http://openoffice.org/2001/registry">
<item oor:path="/org.openoffice.Office.Calc/Formula/Load"><prop oor:name="OOXMLRecalcMode" oor:op="fuse"><value>0</value></prop></item>
</oor:items>`;

/** Workbooks by file name, as LibreOffice saves them after recomputing every formula; one start for all. */
export function recomputedByLibreOffice(workbooks: ReadonlyMap<string, Uint8Array>): Map<string, Uint8Array> {
  const folder = mkdtempSync(join(tmpdir(), "recomputed-"));
  try {
    mkdirSync(join(folder, "profile", "user"), { recursive: true });
    writeFileSync(join(folder, "profile", "user", "registrymodifications.xcu"), recomputeOnLoad);
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
