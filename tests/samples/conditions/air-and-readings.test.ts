import "../look-up";
import { describe, expect, it } from "vitest";
import { cell, check, condition, filled, summary, typed, without } from "../typed";

describe("conditions of the air", () => {
  it.each(["F7", "G8", "F9", "F11", "F12"])("as text in %s are not replaced by an assumption", (address) => {
    const test = typed({ [`Depressurization!${address}`]: "about 7" });
    expect(cell(test, `Depressurization!H${address.slice(1)}`)).toMatchObject({ code: "#N/A" });
    expect(summary(test, "Verdict")).toBe("open");
  });

  it("need a barometer read at the house", () => {
    const test = typed({ "Depressurization!F11": null });
    expect(condition(test, "Barometric pressure")).toEqual(["missing", "given", "open"]);
    expect(summary(test, "Verdict")).toBe("open");
  });

  it("assume 50 % humidity in the steps and in the whole test alike, and say so", () => {
    const test = typed({ "Depressurization!F9": null });
    expect(condition(test, "Relative humidity")).toEqual(["50 % assumed", "given", "look into it"]);
    expect(condition(test, "Steps of the readings")[2]).toBe("met");
    expect(summary(test, "Conditions for a verdict")).toBe("met; 1 to look into");
    const typedHalf = typed({ "Depressurization!F9": 0.5 });
    const n50 = "Air change rate n50, depressurization";
    expect(summary(test, n50)).toBe(summary(typedHalf, n50));
  });

  it("give no flow without the density that the certificate is for", () => {
    const test = typed({ "Firm!D32": null });
    expect(cell(test, "Depressurization!R11")).toMatchObject({ code: "#N/A" });
    expect(summary(test, "Verdict")).toBe("open");
  });
});

describe("temperatures of the other scale", () => {
  const caution = (test: ReturnType<typeof typed>) => cell(test, "Depressurization!B13");

  it("are not minded while they are likely, half filled or missing", () => {
    expect(caution(typed({}))).toBe("");
    expect(condition(typed({}), "Temperatures likely to be in °C")).toEqual(["plausible", "plausible", "met"]);
    for (const missing of [filled("Depressurization", "FG", [7, 8]), { "Depressurization!G7": null }])
      expect(caution(typed(missing))).toBe("");
    expect(caution(typed({ "Depressurization!F8": -35, "Depressurization!G8": 42, "Depressurization!F7": 5 }))).toBe(
      "",
    );
  });

  it.each([
    ["indoors before", { "Depressurization!F7": 48 }, "Indoors hardly °C: was °F typed? 68 °F is 20 °C."],
    ["outdoors after", { "Depressurization!G8": 45 }, "Outdoors hardly °C: was °F typed? 68 °F is 20 °C."],
  ])("are pointed out beside the cells, and looked into: %s", (_, change, words) => {
    const test = typed(change);
    expect(caution(test)).toBe(words);
    expect(condition(test, "Temperatures likely to be in °C")).toEqual(["hardly", "plausible", "look into it"]);
    expect(summary(test, "Conditions for a verdict")).toMatch(/^met; [12] to look into$/);
  });

  it("count in a second run, and not where a run was not made", () => {
    const second = typed({ "Depressurization 2!F7": 2 });
    expect(condition(second, "Temperatures likely to be in °C")).toEqual(["hardly", "plausible", "look into it"]);
    const unused = typed({ ...without("Depressurization 2"), "Depressurization 2!F7": 2 });
    expect(condition(unused, "Temperatures likely to be in °C")).toEqual(["plausible", "plausible", "met"]);
  });
});

describe("a reading as text", () => {
  it.each([
    ["pressure", { "Depressurization!D26": "-57,4" }],
    ["fan pressure", { "Depressurization!F26": "235,9" }],
    ["baseline", { "Depressurization!F16": "-2,0" }],
  ])("for the %s is left out of nothing, the native formulas too", (_, change) => {
    const test = typed(change);
    for (const label of ["Air change rate n50, depressurization", "Air change rate n50, mean"])
      expect(summary(test, label)).toMatchObject({ code: "#N/A" });
    for (const place of ["D8", "D10", "D11"]) expect(typeof cell(test, `Native formulas!${place}`)).not.toBe("number");
    expect(summary(test, "Verdict")).toBe("open");
  });

  it("that is set to no takes no part anyway", () => {
    const test = typed({
      "Depressurization!F26": "235,9",
      "Depressurization!C26": "no",
      "Depressurization!U26": "gust",
    });
    expect(typeof cell(test, "Native formulas!D8")).toBe("number");
  });
});

describe("baselines", () => {
  it("of both signs: the lowest reading is measured by the larger of the means of + and −", () => {
    const row = [3.6, -3.6, 3.6, -3.6, 3.6, -3.6, 3.6, -3.6, 3.6, -3.6];
    const both = Object.fromEntries(
      row.flatMap((value, index) => [16, 17].map((at) => [`Pressurization!${"DEFGHIJKLM".charAt(index)}${at}`, value])),
    );
    const test = typed(both);
    const [share, limit, outcome] = check(test, 2, "dp0_of_min");
    expect(share).toBeCloseToRelative((100 * 3.6) / 11.8);
    expect([limit, outcome]).toEqual(["≤ 20", "not met"]);
    expect(summary(test, "Verdict")).toBe("not valid");
  });

  it("of fewer than ten readings are looked into", () => {
    const test = typed({ "Depressurization!M17": null });
    expect(condition(test, "Baseline readings")).toEqual([9, 10, "look into it"]);
    expect(summary(test, "Verdict")).toBe("pass");
  });

  it("of unlike signs in the two directions are looked into", () => {
    const test = typed(filled("Pressurization", "DEFGHIJKLM", [16, 17], 1.2));
    expect(condition(test, "Baselines of both directions")[2]).toBe("look into it");
  });
});
