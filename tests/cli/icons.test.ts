import { readFileSync } from "node:fs";
import { join } from "node:path";
import { expect, it } from "vitest";
import { drawIcons, iconNames, iconSizes } from "../../src/cli/build/icons";

it("the add-in's icons are what their drawings show", async () => {
  const folder = "src/taskpane/icons";
  const icons = await drawIcons(folder);
  expect(icons.size).toBe(iconNames.length * iconSizes.length);
  for (const [file, picture] of icons) expect(readFileSync(join(folder, file)).equals(picture), file).toBe(true);
});
