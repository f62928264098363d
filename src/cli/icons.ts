import { writeFileSync } from "node:fs";
import { join } from "node:path";
import { drawIcons } from "./build/icons";

/** Renders the add-in's icons; run it after a drawing has changed: `npx tsx src/cli/icons.ts`. */
const folder = "src/taskpane/icons";
for (const [file, picture] of await drawIcons(folder)) writeFileSync(join(folder, file), picture);
