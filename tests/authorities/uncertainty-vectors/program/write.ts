import { readFileSync, writeFileSync } from "node:fs";
import { groups, simulations } from "./groups";

// tsx tests/authorities/uncertainty-vectors/program/write.ts [GROUP …]: computes these groups of vectors.json anew; where none is named, all but the
// simulations.

const file = new URL("../vectors.json", import.meta.url);
const named = process.argv.slice(2);
let text = readFileSync(file, "utf8");
for (const name of named.length > 0 ? named : Object.keys(groups)) {
  const compute = { ...groups, ...simulations }[name];
  if (compute === undefined)
    throw new Error(`no group ${name}; there are ${[...Object.keys(groups), ...Object.keys(simulations)].join(", ")}`);
  // Only the group's own lines are replaced, so that the rest of the file keeps its bytes.
  const lines = new RegExp(`^ "${name}": \\[\\n[^]*?^ \\]`, "m");
  if (!lines.test(text)) throw new Error(`vectors.json has no group ${name}`);
  const written = JSON.stringify(compute(), null, 1).replaceAll("\n", "\n ");
  text = text.replace(lines, () => ` "${name}": ${written}`);
}
writeFileSync(file, text);
