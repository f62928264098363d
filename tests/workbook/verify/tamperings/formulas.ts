import type { Tampering } from "./tampering";

const shortened = (
  text: string,
  range: RegExp,
  change: (first: number, last: number) => readonly [number, number],
): string =>
  text.replace(range, (_, letter: string, first: string, other: string, last: string) => {
    const [from, to] = change(Number(first), Number(last));
    return `${letter}${from}:${other}${to}`;
  });

/** A range of readings as the whole test has it: letter and row, letter and row. */
const rangesOf = (rows: { top: number; bottom: number }): RegExp =>
  new RegExp(`(\\$?[A-Z]+\\$?)(${rows.top + 1}):(\\$?[A-Z]+\\$?)(${rows.bottom + 1})`, "g");

/** Formulas that read other cells than they should, or do not reach the add-in. */
export const formulas: readonly Tampering[] = [
  {
    what: "a formula dragged along by cut and paste",
    kind: "formula breaks the pattern",
    plant(workbook) {
      const spot = workbook.beside(workbook.find(/^Hall, stairs$/, "Rooms"), 4);
      const row = Number(/\d+/.exec(spot[1])?.[0]);
      workbook.reformulate(spot, (text) => text.replaceAll(String(row), String(row + 1)));
      return spot;
    },
  },
  {
    what: "ranges of a test that end before the last reading",
    kind: "range misses readings",
    plant(workbook) {
      const { pressures } = workbook.test("depressurization");
      const table = workbook.find(/STILLAIR_TESTRESULT\("depressurization"/);
      workbook.reformulate(table, (text) => shortened(text, rangesOf(pressures), (first) => [first, first + 8]));
      return table;
    },
  },
  {
    what: "ranges of a fit that begin at the second reading",
    kind: "range misses readings",
    plant(workbook) {
      const { pressures } = workbook.test("pressurization");
      const fit = workbook.find(/STILLAIR_LEAKAGEFIT\(/, "Pressurization");
      workbook.reformulate(fit, (text) => shortened(text, rangesOf(pressures), (first, last) => [first + 1, last]));
      return fit;
    },
  },
  {
    what: "a room left out of the sum of floor areas",
    kind: "range misses readings",
    plant(workbook) {
      const sum = workbook.find(/SUM\(F\d+:F\d+\)/, "Rooms");
      workbook.reformulate(sum, (text) =>
        shortened(text, /(?<=SUM\()(F)(\d+):(F)(\d+)/, (first) => [first, first + 9]),
      );
      return sum;
    },
  },
  {
    what: "pressures paired with the flows of the next row",
    kind: "ranges misaligned",
    plant(workbook) {
      const { flows } = workbook.test("depressurization");
      const fit = workbook.find(/STILLAIR_FITRESIDUALS\(/, "Depressurization");
      const [first, last] = [flows.top + 1, flows.bottom + 1];
      workbook.reformulate(fit, (text) =>
        text.replace(new RegExp(`\\$N\\$${first}:\\$N\\$${last}`), `$N$${first + 1}:$N$${last + 1}`),
      );
      return fit;
    },
  },
  {
    what: "a direction's step that reads the other direction's sheet",
    kind: "wrong direction's cells",
    plant(workbook) {
      const step = workbook.find(/SQRT\(R\d+\/R\d+\)/, "Pressurization");
      const own = "SQRT(Depressurization!R$1/Depressurization!R$2)";
      workbook.reformulate(step, (text) => text.replace(/SQRT\(R(\d+)\/R(\d+)\)/, own));
      return step;
    },
  },
  {
    what: "one direction's result shown for both",
    kind: "wrong direction's cells",
    plant(workbook) {
      const quantity = workbook.find(/^Specific leakage rate, envelope area$/, "Results");
      const row = [1, 2, 3, 4, 5].map((step) => workbook.beside(quantity, step));
      const cell = row.find((spot) => /(?<!De|')Pressurization!/.test(workbook.formula(spot)))!;
      workbook.reformulate(cell, (text) => text.replaceAll("Pressurization!", "Depressurization!"));
      return cell;
    },
  },
  {
    what: "a reference to deleted cells",
    kind: "broken reference",
    plant(workbook) {
      const cell = workbook.beside(workbook.find(/^Bathroom$/, "Rooms"), 6);
      workbook.reformulate(cell, (text) => text.replace(/F\d+\*/, "#REF!*"));
      return cell;
    },
  },
  {
    what: "a name whose cells were deleted",
    kind: "broken reference",
    plant(workbook) {
      workbook.edit("xl/workbook.xml", (xml) =>
        xml.replace(/(<definedName name="HouseHeight">)[^<]*/, "$1Rooms!#REF!"),
      );
      return /the name HouseHeight/;
    },
  },
  {
    what: "a name that points to another quantity",
    kind: "name points elsewhere",
    plant(workbook) {
      const [, floor] = workbook.named("FloorArea");
      workbook.edit("xl/workbook.xml", (xml) =>
        xml.replace(/(<definedName name="InternalVolume">)[^<]*/, `$1Rooms!${floor}`),
      );
      return /the name InternalVolume/;
    },
  },
  {
    what: "a call of the add-in that was typed while it was absent",
    kind: "shows #NAME?",
    plant(workbook) {
      const [sheet, address] = workbook.find(/STILLAIR_BASELINEPRESSURE\(/, "Pressurization");
      const text = workbook.formula([sheet, address]).replace("_xldudf_STILLAIR_", "STILLAIR.");
      workbook.put([sheet, address], `=${text}`);
      return [sheet, address];
    },
  },
  {
    what: "a function that the add-in does not have",
    kind: "shows #NAME?",
    keepsOldResults: true,
    plant(workbook) {
      const cell = workbook.find(/STILLAIR_BASELINEPRESSURE\(/, "Depressurization");
      workbook.reformulate(cell, (text) => text.replace("BASELINEPRESSURE", "BASELINE"));
      return cell;
    },
  },
  {
    // A call that gives one value loses nothing without the mark, so it is a table that is cut here.
    what: "a table that lost its mark of a dynamic array",
    kind: "shows #NAME?",
    plant(workbook) {
      const [sheet, address] = workbook.find(/STILLAIR_TESTRESULT\(/, "Depressurization");
      const cell = new RegExp(`(<c r="${address}"[^>]*?) cm="1"([^>]*>\\s*<f)[^>]*>`);
      workbook.edit(workbook.part(sheet), (xml) => xml.replace(cell, "$1$2>"));
      return [sheet, address];
    },
  },
  {
    what: "a value fetched from another workbook",
    kind: "external link",
    keepsOldResults: true,
    plant(workbook) {
      const [sheet, address] = workbook.named("HouseHeight");
      workbook.put([sheet, address], "=[1]Heights!$B$4");
      return [sheet, address];
    },
  },
];
