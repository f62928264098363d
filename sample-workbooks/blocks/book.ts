import { type NamedRange, type WorkbookProperties, writePackage } from "./hucre";
import { mend } from "./mend";
import { type Paper, printNames } from "./print";
import type { Sheet } from "./sheet";
import { palette, typeface } from "./style";

/** Everything a workbook is made of, values not yet computed. */
export interface Recipe {
  /** File name, without folder. */
  readonly file: string;
  readonly sheets: readonly Sheet[];
  /** Defined names and the ranges behind them. */
  readonly names: Readonly<Record<string, string>>;
  readonly properties: WorkbookProperties;
  /** A4 where nothing is said. */
  readonly paper?: Paper;
  /** Chart series that are points without a line. */
  readonly markersOnly: readonly string[];
}

/** The workbook's bytes, formulas without values. */
export async function bake(recipe: Recipe): Promise<Uint8Array> {
  const names: NamedRange[] = Object.entries(recipe.names).map(([name, range]) => ({ name, range }));
  for (const sheet of recipe.sheets) names.push(...printNames(sheet.name, sheet.print));
  const bytes = await writePackage(
    recipe.sheets.map((sheet) => sheet.toLibrary(recipe.paper ?? "a4")),
    names,
    recipe.properties,
    { name: typeface, size: 10, color: { rgb: palette.ink } },
  );
  return mend(bytes, new Set(recipe.markersOnly));
}
