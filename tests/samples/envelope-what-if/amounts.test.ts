import "../look-up";
import { describe, expect, it } from "vitest";
import type { CellValue } from "../../../src/workbook/index";
import { componentsByHand, gableHouse } from "../envelope-by-hand";
import { errorsOf, type Typed } from "../sample";
import { asStored, known, typed } from "./form";

/** The second variant on a longer, wider plan and a storey higher: the floor area more than doubles. */
const larger = { "Variants!D10": 15.2, "Variants!E10": 9.1, "Variants!F10": 3 } as const;
const growth = (15.2 * 9.1 * 3) / (14.4 * 8.4 * 2);
const share = (test: Typed) => test.cell("Overview!B17") as string;

describe("amounts that were counted for another outline", () => {
  it("are what was typed while the outline is the one they were counted for", () => {
    const states = ["F", "G", "H", "I", "J", "K"].map((column) => asStored.cell(`Components!${column}34`));
    expect(states).toEqual(Array(6).fill("fit"));
    expect(asStored.cell("Components!C58")).toBe("");
    expect(asStored.cell("Components!C59")).toBe("");
    expect(share(asStored)).not.toContain("again");
  });

  it("grow with the size that is named beside them; joints with the perimeter", () => {
    const test = typed(larger);
    const given = { perimeter: 48.6, storeys: 3, windows4: 41, windows3: 0, doors3: 4.6, hatches: 1 };
    expect(known(test, 1)).toBeCloseToRelative(
      componentsByHand({ ...given, ducts: 8 * growth, grommets: 16 * growth }),
    );
    expect(test.cell("Components!G25")).toBe("agrees");
    expect(test.cell("Components!K48")).toBe("grown from 8 with the floor area");
  });

  it("that grow with nothing are named in the plain words, beside the share that they give", () => {
    const test = typed(larger);
    expect(share(test)).toContain("“Windows, class 4”, 41 m²: typed for a smaller outline, look again.");
    expect(test.cell("Components!G34")).toBe("look again");
    expect(test.cell("Components!K43")).toBe("typed for a smaller outline: look again");
    expect(test.cell("Variants!P36")).toBe("amounts: look again");
    expect(test.cell("Components!F34")).toBe("fit");
  });

  it("are counted in the caution, of base and variant", () => {
    const test = typed({ ...larger, "Components!N17": null, "Variants!D9": 14 });
    expect(share(test)).toContain("“Windows, class 4”, 41 m² and 1 more row: typed for a smaller outline");
    expect(share(test)).toContain("The base’s amounts too: see Components.");
    expect(share(typed({ "Variants!D9": 14 }))).toContain(
      "Base: “Windows, class 4”, 34 m²: typed for a smaller outline",
    );
    expect(typed({ "Variants!D10": 9 }).cell("Components!C59")).toContain("typed for another outline, look again");
  });

  it("all grow where a size is named for each", () => {
    const test = typed({ ...larger, "Components!N12": "envelope area" });
    const envelope = gableHouse(15.2, 9.1, 8.25, 3.6).envelope / 561.3;
    expect(test.cell("Components!F43")).toBeCloseToRelative(41 * envelope);
    expect(test.cell("Components!G34")).toBe("grown");
    expect(share(test)).toContain("Amounts counted for a smaller outline are grown with it");
  });

  it("stay as typed, and say so, where nobody typed what they were counted for", () => {
    const unknown: Record<string, CellValue> = {
      "Components!G31": null,
      "Components!G32": null,
      "Components!G33": null,
    };
    const test = typed({ ...larger, ...unknown });
    expect(errorsOf(test)).toEqual([]);
    expect(test.cell("Components!G34")).toBe("unknown");
    expect(test.cell("Components!F48")).toBe(8);
    expect(share(test)).toContain("For which outline the amounts were counted is not typed");
  });

  it("give no figure where a size is typed as text", () => {
    const test = typed({ "Components!G31": "242 m²" });
    expect(test.cell("Components!G34")).toBe("look again");
    expect(known(test, 1)).not.toBeTypeOf("number");
  });
});
