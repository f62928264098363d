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
  return convert(workbooks, "xlsx", "xlsx:Calc MS Excel 2007 XML", profileThat(recomputes));
}

/** The pages of workbooks as PDF, by file name; one start for all. */
export function printedByLibreOffice(workbooks: ReadonlyMap<string, Uint8Array>): Map<string, Uint8Array> {
  return convert(workbooks, "pdf", "pdf:calc_pdf_Export", undefined);
}

function convert(
  workbooks: ReadonlyMap<string, Uint8Array>,
  extension: string,
  target: string,
  settings: string | undefined,
): Map<string, Uint8Array> {
  const folder = mkdtempSync(join(tmpdir(), "converted-"));
  try {
    mkdirSync(join(folder, "profile", "user"), { recursive: true });
    if (settings !== undefined) writeFileSync(join(folder, "profile", "user", "registrymodifications.xcu"), settings);
    const files = [...workbooks].map(([name, bytes]) => {
      writeFileSync(join(folder, name), bytes);
      return join(folder, name);
    });
    const profile = `-env:UserInstallation=file://${join(folder, "profile")}`;
    const given = ["--convert-to", target, "--outdir", join(folder, "out"), ...files];
    execFileSync("soffice", [profile, "--headless", ...given], { stdio: "ignore", timeout: 580_000 });
    const made = (name: string) => join(folder, "out", name.replace(/xlsx$/, extension));
    return new Map([...workbooks.keys()].map((name) => [name, new Uint8Array(readFileSync(made(name)))]));
  } finally {
    rmSync(folder, { recursive: true, force: true });
  }
}
