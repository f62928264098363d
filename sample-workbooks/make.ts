import { mkdirSync, writeFileSync } from "node:fs";
import { bake, bakeForm, fill } from "./blocks/book";
import { recipes } from "./recipes";

/** Makes the sample workbooks anew beside their recipes, or only those that are named; the same recipe gives the same bytes. */
const wanted = process.argv.slice(2).map((name) => `${name.replace(/\.xlsx$/, "")}.xlsx`);
for (const name of wanted) {
  if (recipes.some(({ file }) => file === name)) continue;
  console.error(`${name} is none of the sample workbooks: ${recipes.map(({ file }) => file).join(", ")}`);
  process.exit(2);
}
mkdirSync(new URL("blank", import.meta.url), { recursive: true });
for (const recipe of recipes) {
  if (wanted.length > 0 && !wanted.includes(recipe.file)) continue;
  const bytes = fill(await bake(recipe));
  writeFileSync(new URL(recipe.file, import.meta.url), bytes);
  const blank = await bakeForm(recipe);
  writeFileSync(new URL(`blank/${recipe.file}`, import.meta.url), blank);
  console.log(`${recipe.file}: ${recipe.sheets.length} sheets, ${Math.round(bytes.length / 1024)} kB`);
}
