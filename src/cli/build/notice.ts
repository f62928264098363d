import { readdirSync, readFileSync } from "node:fs";
import { join } from "node:path";
import type { Compilation } from "webpack";

/** The packages whose code is in a build, by its source files. */
export function listPackages({ modules }: Compilation): string[] {
  const inner = [...modules].flatMap((module) =>
    "modules" in module ? (module.modules as (typeof module)[]) : [module],
  );
  const files = inner.flatMap((module) => module.nameForCondition() ?? []);
  const names = files.flatMap((file) => /.*node_modules[\\/]((?:@[^\\/]+[\\/])?[^\\/]+)/.exec(file)?.[1] ?? []);
  return [...new Set(names)].sort();
}

/** The licence of a package as it was published with it; one without the text names its licence and its author in package.json. */
export function readLicence(root: string, name: string): string {
  const folder = join(root, "node_modules", name);
  const file = readdirSync(folder).find((one) => /^licen[cs]e(\.(txt|md))?$/i.test(one));
  if (file !== undefined) return readFileSync(join(folder, file), "utf8").trim();
  const { license, author } = JSON.parse(readFileSync(join(folder, "package.json"), "utf8")) as Record<string, unknown>;
  if (license !== "ISC" || typeof author !== "string")
    throw new Error(`${name} has no licence text, so its code cannot be passed on`);
  return `Copyright (c) ${author}\n\n${isc}`;
}

/** The ISC licence, the same words for every work under it. */
const isc = `Permission to use, copy, modify, and/or distribute this software for any purpose with or without fee is hereby granted, provided that the above copyright notice and this permission notice appear in all copies.

THE SOFTWARE IS PROVIDED "AS IS" AND THE AUTHOR DISCLAIMS ALL WARRANTIES WITH REGARD TO THIS SOFTWARE INCLUDING ALL IMPLIED WARRANTIES OF MERCHANTABILITY AND FITNESS. IN NO EVENT SHALL THE AUTHOR BE LIABLE FOR ANY SPECIAL, DIRECT, INDIRECT, OR CONSEQUENTIAL DAMAGES OR ANY DAMAGES WHATSOEVER RESULTING FROM LOSS OF USE, DATA OR PROFITS, WHETHER IN AN ACTION OF CONTRACT, NEGLIGENCE OR OTHER TORTIOUS ACTION, ARISING OUT OF OR IN CONNECTION WITH THE USE OR PERFORMANCE OF THIS SOFTWARE.`;
