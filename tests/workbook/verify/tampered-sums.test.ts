import { describe, expect, it } from "vitest";
import { slow } from "../../time-outs";
import { ownSheet, put, saidOf, type Cells } from "./bare";
import { expectFound } from "./expect-found";
import { sums } from "./tamperings/sums";

describe("tampered sizes and sums are found", () => expectFound(sums));

/** A list of rooms under the test on a firm's own sheet, and a volume typed in. */
const withRooms = (sum: string, change: (own: Cells) => void = () => {}): Cells =>
  ownSheet({ volume: { f: "R20" } }, (own) => {
    put(own, "N14", ["Room", "area, m²", "height, m", "", "volume, m³"], "across");
    [
      ["Living", 41.2, 2.6],
      ["Kitchen", 22.4, 2.6],
      ["Bedroom", 30.9, 2.4],
      ["Attic", 24.1, 2.1],
    ].forEach((room, index) => {
      put(own, `N${15 + index}`, room, "across");
      own[`R${15 + index}`] = { f: `O${15 + index}*P${15 + index}` };
    });
    own["N20"] = "Sum";
    own["R20"] = { f: sum };
    change(own);
  });

describe("on a firm's own sheet", { timeout: slow }, () => {
  it("an honest list of rooms gives no warning", () => {
    expect(saidOf({ Test: withRooms("SUM(R15:R18)") })).toEqual([]);
  });

  it("a volume typed in place of the sum of the list is found", () => {
    const cells = withRooms("SUM(R15:R18)", (own) => {
      own["R19"] = { f: "SUM(R15:R18)" };
      own["R20"] = { f: "R21" };
      put(own, "N19", ["Sum"]);
      put(own, "N20", ["passed on"]);
      own["R21"] = 390;
    });
    expect(saidOf({ Test: cells }).join("\n")).toMatch(/size typed in in Test!R21/);
  });

  it("a whole number added to the bare sum is found", () => {
    expect(saidOf({ Test: withRooms("SUM(R15:R18)+45") }).join("\n")).toMatch(/hard-coded figure in Test!R20/);
  });
});
