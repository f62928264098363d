import "../look-up";
import { describe, expect, it } from "vitest";
import { componentsByHand, flowOfArea, gableHouse, leakageArea } from "../envelope-by-hand";
import { errorsOf, type Typed } from "../sample";
import { allowed, asStored, counted, known, typed } from "./form";

const longer = gableHouse(14.4, 8.4, 5.5, 3.6);
const components = componentsByHand({
  perimeter: 45.6,
  storeys: 2,
  windows4: 41,
  windows3: 0,
  doors3: 4.6,
  hatches: 1,
  ducts: 8,
  grommets: 16,
});

/** A line of the three targets. */
const line = (test: Typed, row: number) => ["C", "D", "E"].map((column) => test.cell(`Targets!${column}${row}`));

describe("three limits side by side for the variant", () => {
  it("give what each allows, as flow and in every quantity, by hand", () => {
    const perArea = 0.06 * 18.288;
    const flows = [counted * longer.volume, 0.6 * counted * longer.volume, perArea * longer.envelope];
    const volumes = [counted * longer.volume, counted * longer.volume, longer.volume];
    flows.forEach((flow, index) => {
      expect(line(asStored, 10)[index]).toBeCloseToRelative(volumes[index] ?? NaN);
      expect(line(asStored, 11)[index]).toBeCloseToRelative(flow);
      expect(line(asStored, 13)[index]).toBeCloseToRelative(flow / (volumes[index] ?? NaN));
      expect(line(asStored, 14)[index]).toBeCloseToRelative(flow / longer.envelope);
      expect(line(asStored, 16)[index]).toBeCloseToRelative(leakageArea(flow, 4, 1));
      expect(line(asStored, 19)[index]).toBeCloseToRelative(components);
      expect(line(asStored, 20)[index]).toBeCloseToRelative(components / flow);
      expect(line(asStored, 21)[index]).toBeCloseToRelative(flow - components);
    });
    expect(line(asStored, 22)[0]).toBeCloseToRelative(((flows[0] ?? NaN) - components) / flowOfArea(50, 0.6, 0.5));
    expect(line(asStored, 9)).toEqual(["1 1/h at 50 Pa", "0.6 1/h at 50 Pa", "1.097 m³/(h·m²) at 50 Pa"]);
    expect(line(asStored, 23)).toEqual([
      "room for unknown leaks",
      "known components exceed the limit",
      "little left for unknown leaks",
    ]);
  });

  it("agree with the variant's own row for its own criterion, also at another pressure", () => {
    const own = typed({ "Variants!C23": "US Army Corps of Engineers", "Targets!C8": "US Army Corps of Engineers" });
    expect(line(own, 11)[0]).toBe(allowed(own, 1, "C"));
    expect(line(own, 12)[0]).toBe(allowed(own, 1, "D"));
    const area = typed({ "Variants!C23": "R-2000, leakage area", "Targets!C8": "R-2000, leakage area" });
    expect(line(area, 18)[0]).toBe(allowed(area, 1, "J"));
  });

  it("follow another variant", () => {
    const plan = typed({ "Overview!C12": "Odd plan" });
    expect(line(plan, 11)[0]).toBe(allowed(plan, 5, "C"));
    expect(line(plan, 19)[0]).toBe(known(plan, 5));
  });

  it("do not pass amounts that were typed for another outline", () => {
    const larger = typed({ "Variants!D10": 15.2, "Variants!E10": 9.1, "Variants!F10": 3 });
    expect(line(larger, 23)).toEqual(Array(3).fill("amounts: look again"));
    expect(larger.cell("Targets!B24")).toContain("“Windows, class 4”, 41 m²: typed for a smaller outline, look again.");
  });

  it.each([false, true])("stay blank where none is chosen, or no variant (blank cells as zero: %s)", (blankAsZero) => {
    const none = typed({ "Targets!D8": null }, blankAsZero);
    expect(errorsOf(none)).toEqual([]);
    expect(line(none, 11)[1]).toBe("");
    expect(line(none, 23)[1]).toBe("");
    const noVariant = typed({ "Overview!C12": null }, blankAsZero);
    expect(errorsOf(noVariant)).toEqual([]);
    expect(line(noVariant, 11)).toEqual(["", "", ""]);
  });
});
