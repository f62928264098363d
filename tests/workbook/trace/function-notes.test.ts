import { expect, it } from "vitest";
import metadata from "../../../src/functions/functions.json";
import { noteOf } from "../../../src/workbook/trace/function-notes";

const notes = new Map(metadata.functions.map((entry) => [entry.id, noteOf(entry)]));

it("every function's comment names its equation and its source; the version has neither, the checks have their clauses", () => {
  const lacking = (part: "equation" | "source") =>
    [...notes.values()].filter((note) => note[part] === "").map(({ id }) => id);
  expect(lacking("equation").sort()).toEqual(["METHODVERSION", "VALIDITYCHECKS"]);
  expect(lacking("source")).toEqual(["METHODVERSION"]);
});

it("reads equation, source, columns and a short description apart", () => {
  expect(notes.get("AIRDENSITY")).toMatchObject({
    does: "density of moist air ρ",
    equation: "ρ = (p − 0.37802·φ·p_sat)/(287.055·T)",
    source: "ISO 9972:2015, air density",
  });
  expect(notes.get("HEATLOSS")?.source).toMatch(/^EN 12831:2003 for c = 0.34 .*own copy\)$/);
  expect(notes.get("LEAKAGEFIT")?.source).toContain("York et al., Am. J. Phys. 72 (2004) 367");
  expect(notes.get("TESTRESULT")?.columns).toEqual([
    "what it is",
    "symbol",
    "value",
    "lower",
    "upper",
    "unit",
    "source",
  ]);
  expect(notes.get("VALIDITYCHECKS")?.columns.slice(0, 3)).toEqual(["check", "symbol", "measured"]);
  expect(notes.get("FANFLOW")?.parameters[0]).toBe("fan pressures");
});
