import { existsSync, readdirSync, readFileSync } from "node:fs";
import { join } from "node:path";

/**
 * Workbooks saved by Excel, with Excel's own values: from the test folder of the open-source spreadsheet engine IronCalc. They lie
 * beside the repository and are not part of it.
 */
export const folder = "../shared/reference/workbooks";

export const present = existsSync(folder);

/** Their paths within the folder; none where it is absent. */
export const workbooks: readonly string[] = present
  ? readdirSync(folder, { recursive: true, encoding: "utf8" })
      .filter((name) => name.endsWith(".xlsx"))
      .sort()
  : [];

export const bytesOf = (name: string): Uint8Array => new Uint8Array(readFileSync(join(folder, name)));
