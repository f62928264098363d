import { describe, expect, it } from "vitest";
import { readWhereabouts, checkWhereabouts } from "../../src/cli/metadata/developers";

const root = new URL("../..", import.meta.url).pathname;
const density = { name: "airDensity", file: "air.ts", core: ["air/density.ts"], checks: ["functions/cells.test.ts"] };

describe("where a function's work is done and checked", () => {
  it("is read from its comment", () => {
    const found = readWhereabouts(`${root}/src/functions/air/air-density.ts`).find(({ name }) => name === "airDensity");
    expect(found?.core).toEqual(["air/density.ts"]);
    expect(found?.checks).toContain("authorities/psychrolib.test.ts");
  });

  it("is accepted where the test calls the function", () => {
    expect(checkWhereabouts(density, root)).toEqual([]);
  });

  it.each([
    ["no tags", { core: [], checks: [] }, ["names no @core file", "names no @check file"]],
    ["a file that is not there", { core: ["air/ether.ts"] }, ["src/core/air/ether.ts is not there"]],
    ["a test about something else", { checks: ["manifest/manifest.test.ts"] }, ["calls neither it nor its step"]],
  ])("is refused: %s", (_, change, words) => {
    const problems = checkWhereabouts({ ...density, ...change }, root);
    expect(problems).toHaveLength(words.length);
    words.forEach((word, index) => expect(problems[index]).toContain(word));
  });
});
