import { mkdtempSync, rmSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { afterEach, describe, expect, it } from "vitest";
import { generateMetadata } from "../../src/cli/metadata/generate";
import { looksLikeCell, nameProblems } from "../../src/cli/metadata/rules";

const folders: string[] = [];
afterEach(() => {
  for (const folder of folders.splice(0)) rmSync(folder, { recursive: true });
});

/** A folder like src/functions, made for one test: file name → text. */
function folderOf(files: Record<string, string>): string {
  const folder = mkdtempSync(join(tmpdir(), "stillair-metadata-"));
  folders.push(folder);
  for (const [name, text] of Object.entries(files)) writeFileSync(join(folder, name), text);
  return folder;
}

const sound = `
/**
 * Doubles a number, and says so.
 * @customfunction
 * @param amounts Numbers to double.
 * @param [how_often] How often; 1 when left out.
 * @returns The doubled numbers.
 */
export function doubled(amounts: any[][], how_often?: number | null): any[][] {
  return amounts.map((row) => row.map((x) => x * 2 ** (how_often ?? 1)));
}
`;

async function problemsOf(
  source: string,
  index = `export { doubled } from "./doubled";\n`,
): Promise<readonly string[]> {
  return (await generateMetadata(folderOf({ "doubled.ts": source, "index.ts": index }))).problems;
}

describe("a sound folder", () => {
  it("gives functions.json with ranges as ranges, errors let in, and a page of help", async () => {
    const generated = await generateMetadata(
      folderOf({ "doubled.ts": sound, "index.ts": `export { doubled } from "./doubled";\n` }),
    );
    expect(generated.problems).toEqual([]);
    const metadata = JSON.parse("text" in generated ? generated.text : "{}") as Record<string, unknown>;
    expect(metadata).toMatchObject({
      allowCustomDataForDataTypeAny: true,
      functions: [
        {
          id: "DOUBLED",
          name: "DOUBLED",
          helpUrl: "https://localhost:3000/help/DOUBLED.html",
          parameters: [
            { name: "amounts", dimensionality: "matrix" },
            { name: "how_often", optional: true },
          ],
          result: { dimensionality: "matrix" },
        },
      ],
    });
  });

  it("gives the same bytes whatever the order of the files", async () => {
    const other = sound.replaceAll("doubled", "alsoDoubled");
    const door = [`export { doubled } from "./one";`, `export { alsoDoubled } from "./two";`];
    const first = await generateMetadata(folderOf({ "one.ts": sound, "two.ts": other, "index.ts": door.join("\n") }));
    const swapped = [`export { alsoDoubled } from "./one";`, `export { doubled } from "./two";`];
    const second = await generateMetadata(
      folderOf({ "one.ts": other, "two.ts": sound, "index.ts": swapped.join("\n") }),
    );
    expect(first.problems).toEqual([]);
    expect(second).toEqual(first);
  });
});

describe("faults that the generator lets pass", () => {
  const faults: [string, string, string][] = [
    ["an optional range with | null", sound.replace("any[][],", "any[][] | null,"), "silently becomes a single cell"],
    ["a one-dimensional result", sound.replace("): any[][]", "): any[]"), "not a range"],
    ["a one-dimensional parameter", sound.replace("amounts: any[][]", "amounts: any[]"), "not a range"],
    ["a result that is a number or a range", sound.replace("): any[][]", "): number | any[][]"), "silently becomes"],
    ["a default value", sound.replace("?: number | null", " = 1"), "arrives as null"],
    ["an optional that does not expect null", sound.replace("?: number | null", "?: number"), "write T | null"],
    ["a rest parameter", sound.replace("how_often?: number | null", "...how_often: any[][][]"), "rest parameter"],
    [
      "a type in the comment that is not the code's",
      sound.replace("@param [how", "@param {number} [how"),
      "leave it out",
    ],
    ["two comment blocks", sound.replace("export", "/** Later words. */\nexport"), "two comment blocks"],
    ["a link in a comment", sound.replace("and says so", "see {@link Math.abs}"), "{@link}"],
    [
      "an arrow function",
      sound.replace("export function doubled(", "export const doubled = (").replace("): any[][] {", "): any[][] => {"),
      "other than a top-level function",
    ],
    ["no export", sound.replace("export function", "function"), "is not exported from its file"],
    ["a missing description", sound.replace("Doubles a number, and says so.", ""), "has no description"],
    [
      "a missing parameter description",
      sound.replace(" Numbers to double.", ""),
      "parameter amounts has no description",
    ],
    [
      "a first sentence that is longer than Excel surely shows",
      sound.replace("Doubles a number, and says so.", `Doubles a number${" and says so".repeat(21)}.`),
      "DOUBLED: the first sentence has 269 characters, more than 255",
    ],
    [
      "a parameter that is described at such length",
      sound.replace("Numbers to double.", "Numbers to double. ".repeat(14)),
      "parameter amounts has a description of more than 255 characters",
    ],
    ["camel case in a parameter", sound.replaceAll("how_often", "howOften"), "not lower_case_with_underscores"],
    [
      "an id that is not the function's name",
      sound.replace("@customfunction", "@customfunction TWOFOLD"),
      "not its name in upper case",
    ],
    ["a dotted name", sound.replace("@customfunction", "@customfunction DOUBLED DOU.BLED"), "has a dot"],
    ["a type that Excel does not know", sound.replace("?: number | null", "?: Date"), "write T | null"],
    [
      "nine parameters",
      sound
        .replace(" * @returns", [..."cdefghi"].map((x) => ` * @param ${x} One more.\n`).join("") + " * @returns")
        .replace("amounts: any[][]", "amounts: any[][], " + [..."cdefghi"].map((x) => `${x}: number`).join(", ")),
      "9 parameters",
    ],
  ];
  it.each(faults)("%s", async (_name, source, expected) => {
    expect((await problemsOf(source)).join("\n")).toContain(expected);
  });

  it("a type that the generator refuses by itself", async () => {
    const problems = await problemsOf(sound.replace("amounts: any[][]", "amounts: Amount[][]"));
    expect(problems.join("\n")).toContain("metadata generator:");
  });

  it("a function listed but not passed on", async () => {
    const both = sound + sound.replaceAll("doubled", "trebled");
    expect((await problemsOf(both)).join("\n")).toContain("trebled: listed, but");
  });

  it("a function passed on but not listed", async () => {
    const both = sound + "\nexport function plain(): number {\n  return 1;\n}\n";
    const problems = await problemsOf(both, `export { doubled, plain } from "./doubled";\n`);
    expect(problems.join("\n")).toContain("plain: exported by");
  });

  it("an index that does not name what it passes on", async () => {
    expect((await problemsOf(sound, `export * from "./doubled";\n`)).join("\n")).toContain(
      "does not name what it exports",
    );
  });

  it("one id in two files", async () => {
    const generated = await generateMetadata(
      folderOf({ "one.ts": sound, "two.ts": sound, "index.ts": `export { doubled } from "./one";\n` }),
    );
    expect(generated.problems.join("\n")).toContain("id DOUBLED: given to two functions");
  });
});

describe("names that Excel would read as something else", () => {
  // Excel's grid ends at column XFD and row 1 048 576: Microsoft, "Excel specifications and limits".
  it.each(["A1", "ACH50", "CFM50", "Q50", "N50", "XFD1048576", "xfd1", "R1C1", "R", "C", "RC", "R12", "C7", "R3C"])(
    "%s is a cell",
    (name) => expect(looksLikeCell(name)).toBe(true),
  );
  it.each(["XFE1", "XFD1048577", "A0", "FLOORAREA", "ABCD12", "N50A", "A"])("%s is no cell", (name) =>
    expect(looksLikeCell(name)).toBe(false),
  );
  it("refuses short names and the names of Excel's functions", () => {
    expect(nameProblems("id", "QE")).toHaveLength(1);
    expect(nameProblems("id", "LINEST")).toHaveLength(1);
    expect(nameProblems("name", "T.TEST")).not.toEqual([]);
    expect(nameProblems("id", "LEAKAGEFIT")).toEqual([]);
  });
});
