import { readFileSync } from "node:fs";
import { describe, expect, it } from "vitest";
import { examples } from "../../src/functions/examples";
import { formulaText } from "../../src/taskpane/call-text";
import { groups } from "../../src/taskpane/groups";
import { briefOf, referencePage, splitSource } from "../../src/taskpane/reference-page";

const entry = (id: string, description = "Gives one number. Source: a book, page 1.") => ({
  id,
  description,
  parameters: [
    { name: "first", description: "The <first> & only." },
    { name: "more", description: "More of it.", dimensionality: "matrix", optional: true },
  ],
});

describe("the page's list of functions", () => {
  it("groups what the guide names, and forgets nothing that it does not name", () => {
    const page = referencePage({ functions: [entry("FLOORAREA"), entry("SOMETHINGNEW")] });
    expect(page.count).toBe(2);
    expect(page.groups).toMatch(/id="envelope"[\s\S]*id="FLOORAREA"[\s\S]*id="more-functions"[\s\S]*id="SOMETHINGNEW"/);
    expect(page.navigation).toContain(`href="#more-functions"`);
    expect(page.groups).not.toContain(`id="air"`);
  });

  it("shows arguments, source and example apart, and no sign of HTML from a description is taken for HTML", () => {
    const { groups: html } = referencePage({ functions: [entry("FLOORAREA")] });
    expect(html).toContain("The &lt;first&gt; &amp; only.");
    expect(html).toContain("one cell or a range, optional");
    expect(html).toContain(`<p class="source">a book, page 1.</p>`);
    expect(html.replaceAll("<wbr />", "")).toContain("=STILLAIR.FLOORAREA({0,0;8,0;8,6;0,6})");
  });

  it("lets a long name of an argument break behind its underscores", () => {
    const one = { ...entry("FLOORAREA"), parameters: [{ name: "baseline_before", description: "Readings." }] };
    expect(referencePage({ functions: [one] }).groups).toContain("(<wbr />baseline_<wbr />before)</code>");
  });

  it("keeps to one line what a person scans", () => {
    expect(briefOf("Density of air, kg/m³ (IP: lb/ft³): p/(R·T). Dry.")).toBe("Density of air, kg/m³ (IP: lb/ft³)");
    expect(briefOf('Flow by cl. 6 with 0.65. "plain" is usual.')).toBe("Flow by cl. 6 with 0.65");
    expect(briefOf("Factor at both. ρ is dry.")).toBe("Factor at both");
    expect(briefOf("The version.")).toBe("The version");
  });

  it("splits the source from the last mark only", () => {
    expect(splitSource("Area.\n Source: A, 5.1. Source: B.")).toEqual({ text: "Area. Source: A, 5.1.", source: "B." });
    expect(splitSource("Area.")).toEqual({ text: "Area.", source: "" });
  });
});

describe("formulas as a person types them", () => {
  it("writes ranges, words, omitted arguments and quotation marks", () => {
    expect(
      formulaText("TRIAL", [
        1.5,
        [
          ["volume", 512],
          ["units", "SI"],
        ],
        null,
        'say "so"',
        true,
      ]),
    ).toBe('=STILLAIR.TRIAL(1.5,{"volume",512;"units","SI"},,"say ""so""",TRUE)');
  });
});

describe("the guide and functions.json", () => {
  const listed = (
    JSON.parse(readFileSync("src/functions/functions.json", "utf8")) as {
      functions: { id: string; description: string }[];
    }
  ).functions;
  const ids = listed.map(({ id }) => id).sort();

  it("name the same functions, each once, each with an example", () => {
    expect(groups.flatMap((group) => group.ids).sort()).toEqual(ids);
    expect(Object.keys(examples).sort()).toEqual(ids);
  });

  it("every description names its source, but for the version, which has none", () => {
    const without = listed.filter(({ description }) => splitSource(description).source === "");
    expect(without.map(({ id }) => id)).toEqual(["METHODVERSION"]);
  });
});
