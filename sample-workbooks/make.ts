import { readFileSync, writeFileSync } from "node:fs";
import { bake } from "./blocks/book";
import { fill } from "./blocks/fill";
import { finalTest } from "./final-test";

/** Every sample workbook, made anew beside its recipe; the same recipe gives the same bytes. */
for (const recipe of [finalTest]) {
  const place = new URL(recipe.file, import.meta.url);
  const bytes = fill(await bake(recipe));
  writeFileSync(place, bytes);
  console.log(`${recipe.file}: ${recipe.sheets.length} sheets, ${Math.round(readFileSync(place).length / 1024)} kB`);
}
