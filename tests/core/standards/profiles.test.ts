import { describe, expect, test } from "vitest";
import { checkNames, firstCheckNames, profiles, standards, techniqueOf } from "../../../src/core";

describe.each(standards)("%s", (standard) => {
  const { edition, procedure, correction, technique, leakageArea, directions, stationWind, checks } =
    profiles[standard];

  test("says of each statement where it comes from, and whether that was read or remembered", () => {
    const statements = { correction, technique, leakageArea, directions, stationWind, ...checks };
    for (const [name, statement] of Object.entries(statements)) {
      if (statement === undefined) continue;
      expect(statement.clause, `clause of ${name}`).toMatch(/\w/);
      expect(["C", "M", "practice"], `mark of ${name}`).toContain(statement.mark);
      // What is from memory names the words to look for; what was read needs none.
      if (statement.mark === "M") expect(statement.find, `words for ${name}`).toMatch(/\w/);
      else expect(statement.find, `words for ${name}`).toBeUndefined();
    }
    expect(edition).toMatch(/\d/);
    if (procedure !== undefined) expect(procedure, "number of a clause").toMatch(/^[\d.]+$/);
  });

  test("has its checks among those that every table shows", () => {
    for (const name of Object.keys(checks)) expect(checkNames).toContain(name);
  });

  test("fits by its own technique where none is chosen", () => {
    expect(techniqueOf(standard)).toBe(technique.value);
  });

  test("a check for every test, whatever the standard: certificates bind, plausibility advises", () => {
    expect(checks.gauge_days).toMatchObject({ lower: 0, binding: true, mark: "M" });
    expect(checks.fan_days).toMatchObject({ lower: 0, binding: true, mark: "M" });
    for (const name of ["reach_50", "reach_4", "reach_pr"] as const) {
      expect(checks[name]).toMatchObject({ upper: 1, binding: false, mark: "practice" });
    }
    expect(checks.n50).toMatchObject({ lower: 0.05, upper: 50, binding: false });
    expect(checks.q50_apart).toMatchObject({ upper: 10, binding: false });
  });
});

test("rows of the first version keep their places; the version of the method is the last", () => {
  expect(checkNames.slice(0, firstCheckNames.length)).toEqual([...firstCheckNames]);
  expect(firstCheckNames).toHaveLength(27);
  expect(checkNames.at(-1)).toBe("method");
});

test("the wind at a weather station: twice that near the ground in ISO 9972 and its predecessor, 20 km/h in Canada (from memory)", () => {
  expect(profiles["ISO 9972"].stationWind).toMatchObject({ upper: 6, binding: false });
  expect(profiles["EN 13829"].stationWind).toMatchObject({ upper: 6, binding: false });
  expect(profiles["CGSB 149.10"].stationWind?.upper).toBeCloseTo(5.5556, 4);
  for (const standard of standards) {
    const has = standard.startsWith("CGSB") || standard === "ISO 9972" || standard === "EN 13829";
    expect(standard in profiles && "stationWind" in profiles[standard], standard).toBe(has);
  }
});
