import "../look-up";
import { describe, expect, it } from "vitest";
import {
  componentsByHand,
  fanFlowByHand,
  flatHouse,
  flowOfArea,
  gableHouse,
  infiltrationByHand,
  leakageArea,
} from "../envelope-by-hand";
import { typed, asStored, allowed, q50, known, drawn, counted } from "./form";

const longer = gableHouse(14.4, 8.4, 5.5, 3.6);

const amounts = {
  perimeter: 39.2,
  storeys: 2,
  windows4: 34,
  windows3: 0,
  doors3: 4.6,
  hatches: 1,
  ducts: 6,
  grommets: 14,
};

describe("sizes and limits, against plane geometry and q = C·Δpⁿ by hand", () => {
  it("gives volume, envelope and floor area of every outline", () => {
    const flat = flatHouse(11.2, 8.4, 5.5);
    for (const [row, house] of [
      [9, drawn],
      [10, longer],
      [13, flat],
    ] as const) {
      expect(asStored.cell(`Variants!K${row}`)).toBeCloseToRelative(house.volume);
      expect(asStored.cell(`Variants!L${row}`)).toBeCloseToRelative(house.envelope);
      expect(asStored.cell(`Variants!M${row}`)).toBeCloseToRelative(house.floor);
    }
  });

  it("gives the odd plan from its corners, and its uncertainty", () => {
    const ground = 12.4 * 5.6 + 7.8 * 3.6;
    const upper = 7.8 * 9.2;
    const volume = ground * 2.75 + upper * 2.6;
    expect(asStored.cell("Odd plan!F26")).toBeCloseToRelative(volume);
    expect(asStored.cell("Odd plan!F32")).toBeCloseToRelative(volume);
    expect(asStored.cell("Odd plan!H32")).toBe("agrees with the call above");
    const walls = 43.2 * 2.75 + 34 * 2.6;
    expect(asStored.cell("Odd plan!F33")).toBeCloseToRelative(2 * ground + walls);
    expect(asStored.cell("Variants!L27")).toBeCloseToRelative(counted * volume);
  });

  it("turns each limit into flow and leakage areas", () => {
    expect(q50(asStored, 0)).toBeCloseToRelative(counted * drawn.volume);
    expect(q50(asStored, 1)).toBeCloseToRelative(counted * longer.volume);
    expect(q50(asStored, 2)).toBeCloseToRelative(0.6 * counted * drawn.volume);
    const perArea = 0.06 * 0.3048 * 60 * flatHouse(11.2, 8.4, 5.5).envelope;
    expect(q50(asStored, 4)).toBeCloseToRelative(perArea);
    expect(allowed(asStored, 4, "H")).toBeCloseToRelative(leakageArea(perArea, 4, 1));
    expect(allowed(asStored, 4, "I")).toBeCloseToRelative(leakageArea(perArea, 10, 1));
    expect(allowed(asStored, 4, "J")).toBeCloseToRelative(leakageArea(perArea, 10, 0.611));
    expect(allowed(asStored, 0, "K")).toBeCloseToRelative(leakageArea(counted * drawn.volume, 4, 1) / drawn.envelope);
  });

  it("lays sizes and targets out in one table", () => {
    expect(asStored.cell("Sizes and targets!F14")).toBeCloseToRelative(0.4 * counted * drawn.volume);
    expect(asStored.cell("Sizes and targets!J15")).toBeCloseToRelative(3 * counted * longer.volume);
    expect(asStored.cell("Sizes and targets!M15")).toBeCloseToRelative(
      leakageArea(0.6 * counted * longer.volume, 4, 1),
    );
    const per75 = typed({
      "Sizes and targets!C6": "per envelope area",
      "Sizes and targets!C7": 75,
      "Sizes and targets!F13": 4.572,
    });
    expect(per75.cell("Sizes and targets!F14")).toBeCloseToRelative(4.572 * drawn.envelope * (50 / 75) ** 0.65);
  });
});

describe("the budget of components", () => {
  it("adds windows by EN 12207, joints and holes, as by hand", () => {
    expect(known(asStored, 0)).toBeCloseToRelative(componentsByHand(amounts));
    expect(known(asStored, 1)).toBeCloseToRelative(
      componentsByHand({ ...amounts, perimeter: 45.6, windows4: 41, ducts: 8, grommets: 16 }),
    );
    expect(asStored.cell("Components!F25")).toBe("agrees");
  });

  it("says what is left, as flow and as one hole", () => {
    const left = counted * drawn.volume - componentsByHand(amounts);
    expect(allowed(asStored, 0, "N")).toBeCloseToRelative(left);
    expect(allowed(asStored, 0, "O")).toBeCloseToRelative(left / flowOfArea(50, 0.6, 0.5));
    expect(allowed(asStored, 2, "P")).toBe("known components exceed the limit");
    expect(allowed(asStored, 2, "O")).toBe(0);
  });

  it("follows a change of the windows from class 4 to class 3", () => {
    const change = 34 * (9 - 3) * 0.5 ** (2 / 3);
    expect(known(asStored, 3) - known(asStored, 0)).toBeCloseToRelative(change);
    const changed = typed({ "Components!C12": "Windows, class 3" });
    expect(known(changed, 0) - known(asStored, 0)).toBeCloseToRelative(change);
  });

  it("refuses an amount without its component instead of leaving it out", () => {
    expect(typed({ "Components!F21": 3 }).cell("Components!F24")).toMatchObject({ code: "#N/A" });
  });
});

describe("fan, infiltration and heat", () => {
  it("asks the fan for the flow of the densities on the day, and names the opening", () => {
    const flow = fanFlowByHand(1.5 * counted * drawn.volume, 60, 19, 7);
    expect(asStored.cell("Overview!C36")).toBeCloseToRelative(flow);
    expect(asStored.cell("Overview!C37")).toBe("B, large");
    const leaky = typed({ "Fan!C7": 20 });
    expect(leaky.cell("Overview!C37")).toBe("none");
    expect(leaky.cell("Overview!B18")).toContain("no opening of the device gives it");
  });

  it("gives each model's infiltration as by hand, and heat and cost from it", () => {
    const hand = infiltrationByHand(counted * drawn.volume, 9.1);
    for (let row = 46; row <= 50; row++) {
      const model = asStored.cell(`In use!B${row}`) as string;
      expect(asStored.cell(`In use!C${row}`), model).toBeCloseToRelative(hand[model] ?? NaN);
      const energy = ((hand[model] ?? NaN) * 0.34 * 74_000) / 1000;
      expect(asStored.cell(`In use!E${row}`), model).toBeCloseToRelative(energy);
      expect(asStored.cell(`In use!F${row}`), model).toBeCloseToRelative(energy * 0.11);
    }
    expect(asStored.cell("In use!B50")).toBe("ASHRAE 62.2");
    expect(asStored.cell("In use!D39")).toBeCloseToRelative(0.34 * 27);
  });
});
