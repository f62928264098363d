import { describe, expect, it } from "vitest";
import type { CellValue } from "../../src/workbook/index";
import { slow } from "../time-outs";
import { cellAt, namedCell } from "./look-up";
import { sample, type Typed } from "./sample";
import { condition, panelOnCover, shownOnCover, summary, without } from "./typed";

const larch = sample("final-test.xlsx");
const before = larch.typed();

/** Ash Lodge, of about the size and tightness of the example: every reading, room and text of a few sheets is another one. */
function ashLodge(...untouched: readonly string[]): Record<string, CellValue> {
  const range =
    /^(?:Rooms![DEG](?:[7-9]|1\d|2[0-4])|Rooms![CDFG](?:3[89]|4[0-5])|.*ressurization.*![DF](?:2[4-9]|3[0-5])|.*ressurization.*![D-M]1[67])$/;
  const texts = /^(?:Cover!(?:C\d+|G9)|Preparation![B-F](?:19|[23]\d)|Firm![C-F]1[3-9])$/;
  const changes = larch.typedCells.flatMap((place): [string, CellValue][] => {
    if (untouched.includes(place.split("!")[0] ?? "")) return [];
    const value = before.cell(place);
    if (typeof value === "number" && range.test(place)) {
      const isFan = /ressurization.*!F(2[4-9]|3[0-5])$/.test(place);
      return [[place, Math.round(1000 * value * (isFan ? 1.02 : 1.01)) / 1000]];
    }
    const words = /state|^(?:closed|sealed|open)$/;
    if (typeof value === "string" && texts.test(place) && !words.test(value)) return [[place, `Ash Lodge, ${place}`]];
    return [];
  });
  return Object.fromEntries(changes);
}

const words = (value: CellValue) => (typeof value === "string" ? value : "");

/** The rows of the table, by block and sheet: what stands in them now. */
function states({ book, evaluation }: Typed): Record<string, CellValue> {
  const area = namedCell(book, "ExampleReadings");
  const rows = Array.from({ length: area.bottom - area.top + 1 }, (_, index) => area.top + index);
  return Object.fromEntries(
    rows.map((row) => {
      const at = (column: number) => cellAt(book, evaluation, area.sheet, row, area.left + column);
      return [`${words(at(0))}, ${/'?([^'!]+)'?!/.exec(words(at(1)))?.[1] ?? ""}`, at(4)];
    }),
  );
}

const label = "Readings of the example";

describe("readings of the example", { timeout: slow }, () => {
  it("are its own while the house is the example's, whatever is tried out", () => {
    expect(Object.values(states(before)).filter((state) => state !== "the example's")).toEqual(["blank", "blank"]);
    expect(condition(before, label)).toEqual(["none", null, "met"]);
    const tried = larch.typed({ "Depressurization!F24": 280 });
    expect(states(tried)["Readings, Depressurization"], "one reading of ten").toBe("the example's");
    expect(condition(tried, label)[2]).toBe("met");
    expect(summary(tried, "Verdict")).toBe("pass");
  });

  it("leave the verdict open where one sheet was forgotten, and the cover names it", () => {
    const forgotten = larch.typed(ashLodge("Depressurization 2"));
    expect(summary(forgotten, "Air change rate n50, mean")).toBeLessThan(0.6);
    expect(states(forgotten)).toMatchObject({
      "House, Cover": "other",
      "Rooms, Rooms": "other",
      "Readings, Depressurization": "other",
      "Readings, Depressurization 2": "the example's",
      "Baseline readings, Depressurization 2": "the example's",
      "Readings, Pressurization 2": "blank",
    });
    expect(condition(forgotten, label)).toEqual(["still there", null, "open"]);
    expect(summary(forgotten, "Verdict")).toBe("open");
    expect(shownOnCover(forgotten)).toBe("OPEN");
    expect(panelOnCover(forgotten)).toContain("Readings of the example are still on Depressurization 2.");
  });

  it("are named for every sheet, the baselines alone and the rooms too", () => {
    const house = { "Cover!C6": "Ash Lodge" };
    expect(panelOnCover(larch.typed(house))).toContain(
      "Readings of the example are still on Rooms, Depressurization, Depressurization 2, Pressurization.",
    );
    const baselines = Object.fromEntries(
      Object.entries(ashLodge()).filter(([place]) => !/^Pressurization![D-M]1[67]$/.test(place)),
    );
    expect(panelOnCover(larch.typed(baselines))).toContain("Readings of the example are still on Pressurization.");
  });

  it("are named where only part of a sheet was typed anew", () => {
    const rows = (from: number) => new RegExp(`^Depressurization 2![DF](${from === 4 ? "2[4-7]" : "2[4-9]"})$`);
    const typedAnew = (from: number) =>
      Object.entries(ashLodge()).filter(([place]) => !/^Depressurization 2![DF]/.test(place) || rows(from).test(place));
    const four = larch.typed(Object.fromEntries(typedAnew(4)));
    expect(states(four)["Readings, Depressurization 2"]).toBe("the example's");
    expect(panelOnCover(four)).toContain("Readings of the example are still on Depressurization 2.");
    expect(summary(four, "Verdict")).toBe("open");
    const six = larch.typed(Object.fromEntries(typedAnew(6)));
    expect(states(six)["Readings, Depressurization 2"]).toBe("other");
  });

  it("are gone once everything is typed, or the sheet is emptied; lists that are left are pointed out", () => {
    expect(condition(larch.typed(ashLodge()), label)[2]).toBe("met");
    expect(summary(larch.typed(ashLodge()), "Verdict")).toBe("pass");
    const emptied = larch.typed({
      ...ashLodge("Depressurization 2", "Preparation"),
      ...without("Depressurization 2"),
    });
    expect(condition(emptied, label)[2]).toBe("met");
    expect(summary(emptied, "Verdict")).toBe("pass");
    expect(condition(emptied, "Sealing list and instruments of the example")[2]).toBe("look into it");
  });

  it("are known in a blank form too, where a sheet is copied over into the firm's own form", () => {
    const form = sample("blank/final-test.xlsx");
    const blank = form.typed();
    expect(new Set(Object.values(states(blank)))).toEqual(new Set(["blank"]));
    const copied = Object.fromEntries(
      larch.typedCells
        .filter((place) => /^(Depressurization 2|Firm)!/.test(place))
        .map((place) => [place, before.cell(place)]),
    );
    const test = form.typed(copied);
    expect(states(test)["Readings, Depressurization 2"]).toBe("the example's");
    expect(panelOnCover(test)).toContain("Readings of the example are still on Depressurization 2.");
  });
});
