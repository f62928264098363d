import "../look-up";
import { describe, expect, it } from "vitest";
import { cell, condition, filled, panelOnCover, shownOnCover, summary, typed } from "../typed";
import { iecc } from "./final-test";

describe("slips in the rooms", () => {
  it("do not give a verdict when rooms are typed in millimetres", () => {
    const test = typed({ "Rooms!D7": 6350, "Rooms!E7": 4950 });
    expect(condition(test, "Rooms half filled")[2]).toBe("not met");
    expect(condition(test, "Outlines that the rooms fill")[2]).toBe("not met");
    expect(summary(test, "Verdict")).toBe("not valid");
  });

  it("do not give a verdict when a length is so long that the rooms leave their outline", () => {
    const test = typed({ "Rooms!D7": 9.35 });
    expect(condition(test, "Rooms half filled")).toEqual([0, null, "met"]);
    expect(condition(test, "Outlines that the rooms fill")[2]).toBe("not met");
    expect(summary(test, "Verdict")).toBe("not valid");
  });

  it.each([
    ["a height of 26 m", { "Rooms!G7": 26 }],
    ["a height as text", { "Rooms!G7": "2.6 m" }],
    ["a room whose numbers are all text", { "Rooms!D7": "6.35 m", "Rooms!E7": "4.95 m", "Rooms!G7": "2.6 m" }],
    ["a room without a storey", { "Rooms!C7": null }],
    ["a room without numbers", { "Rooms!B22": "Attic" }],
  ])("do not give a verdict for %s", (_, change) => {
    const test = typed(change);
    expect(condition(test, "Rooms half filled")).toEqual([1, null, "not met"]);
    expect(["not valid", "open"]).toContain(summary(test, "Verdict"));
    expect(shownOnCover(test)).not.toBe("PASS");
  });

  it.each([
    ["a length as text", { "Rooms!D8": "3.95 m" }],
    ["a length that is missing", { "Rooms!D8": null }],
    ["a width of 0", { "Rooms!E8": 0 }],
    ["a width below 0", { "Rooms!E8": -4.95 }],
    ["a height that is missing", { "Rooms!G8": null }],
    ["a height below 0", { "Rooms!G8": -2.6 }],
  ])("leave no volume and no result for %s, and name the room", (_, change) => {
    const test = typed(change);
    for (const label of ["Internal volume", "Air change rate n50, mean", "Result that decides"])
      expect(summary(test, label)).toMatchObject({ code: "#N/A" });
    // A floor area needs no height.
    const floor = summary(test, "Floor area");
    if ("Rooms!G8" in change) expect(floor).toBe(summary(typed({}), "Floor area"));
    else expect(floor).toMatchObject({ code: "#N/A" });
    expect(cell(test, "Rooms!H25")).toMatchObject({ code: "#N/A" });
    expect(cell(test, "Rooms!B26")).toBe(
      `Not added: ${cell(typed({}), "Rooms!B8") as string}, where a length, a width above 0 or a height above 0 is missing`,
    );
    expect(condition(test, "Rooms half filled")).toEqual([1, null, "not met"]);
    expect(condition(test, "Volume and outlines once more")[2]).toBe("not met");
    // The flow needs no volume.
    expect(summary(test, "Air leakage rate q50, mean")).toBe(summary(typed({}), "Air leakage rate q50, mean"));
    expect(panelOnCover(test)).not.toContain("shows an error");
  });

  it("name a room without a name by its row", () => {
    expect(cell(typed({ "Rooms!B22": null, "Rooms!G22": 2.5 }), "Rooms!B26")).toMatch(/^Not added: row 22, where/);
    expect(cell(typed({}), "Rooms!B26")).toBe("");
  });

  it("still deduct a part whose length is below zero", () => {
    const [whole, without] = [typed({}), typed(filled("Rooms", "BCDEG", [9, 9]))];
    expect(cell(whole, "Rooms!H9")).toBeCloseToRelative(-0.6 * 0.45 * 2.6);
    expect((summary(whole, "Internal volume") as number) - (summary(without, "Internal volume") as number)).toBeCloseTo(
      -0.702,
      9,
    );
  });

  it.each([
    ["a corner as text", { "Rooms!C39": "10.6 m" }],
    ["half a corner", { "Rooms!D39": null }],
    ["a gap between corners", { "Rooms!C39": null, "Rooms!D39": null }],
  ])("leave no envelope area for %s", (_, change) => {
    const test = typed(change);
    expect(cell(test, "Rooms!E46")).toMatchObject({ code: "#N/A" });
    expect(summary(test, "Envelope area")).toMatchObject({ code: "#N/A" });
    expect(summary(test, "Verdict")).toBe("not valid");
  });

  it("are looked into when the rooms fill little of their outline, or a mean height is odd", () => {
    const test = typed(filled("Rooms", "G", [7, 20], 4.3));
    expect(condition(test, "Mean clear height")[2]).toBe("look into it");
    const little = typed({ "Rooms!D7": 0.8 });
    expect(condition(little, "Rooms fill enough")[2]).toBe("look into it");
    expect(summary(little, "Conditions for a verdict")).toBe("met; 1 to look into");
    expect(panelOnCover(little)).toContain("met; 1 to look into");
  });

  it("are looked into when partitions are out of a volume that is said to be whole", () => {
    const test = typed(iecc);
    expect(condition(test, "Rooms fill enough").slice(1)).toEqual(["partitions out?", "look into it"]);
    expect(summary(test, "Verdict")).toBe("pass");
  });
});

describe("storeys", () => {
  it("of a bungalow: a blank second outline is skipped", () => {
    const test = typed({
      ...filled("Rooms", "FG", [38, 45]),
      ...filled("Rooms", "BCDEG", [15, 20]),
      "Rooms!F69": null,
    });
    expect(condition(test, "Outlines that the rooms fill")[2]).toBe("met");
    expect(summary(test, "Envelope area")).toBeCloseToRelative(2 * 78.16 + 38 * 2.92);
  });

  it("of three storeys: the third one's walls and a further part count", () => {
    const corners = [
      [0, 0],
      [10.6, 0],
      [10.6, 8.4],
      [0, 8.4],
    ] as const;
    const outline = corners.flatMap(([x, y], index) => [
      [`Rooms!C${51 + index}`, x],
      [`Rooms!D${51 + index}`, y],
    ]);
    const room = { "Rooms!B21": "Loft", "Rooms!C21": "top", "Rooms!D21": 10, "Rooms!E21": 8, "Rooms!G21": 2.4 };
    const test = typed({
      ...(Object.fromEntries(outline) as Record<string, number>),
      ...room,
      "Rooms!F70": 2.4,
      "Rooms!B72": "Dormer",
      "Rooms!H72": 3,
    });
    expect(summary(test, "Envelope area")).toBeCloseToRelative(78.16 + 38 * (2.92 + 2.45) + 38 * 2.4 + 10.6 * 8.4 + 3);
    expect(condition(test, "Outlines that the rooms fill")[2]).toBe("met");
  });

  it("with rooms but without an outline leave the test open", () => {
    const test = typed(filled("Rooms", "FG", [38, 45]));
    expect(condition(test, "Outlines that the rooms fill")[2]).toBe("open");
    expect(summary(test, "Verdict")).toBe("open");
  });
});
