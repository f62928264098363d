import { readFileSync } from "node:fs";
import { describe, expect, it } from "vitest";
import { sheets } from "../../sample-workbooks/final-test/layout";
import { addInRegistry } from "../../src/cli/shared/add-in";
import { ErrorValue, evaluateBook, openWorkbook, type CellValue } from "../../src/workbook/index";
import { cellAt, namedCell } from "./look-up";
import { acceptOne, cell, check, condition, filled, summary, typed, without } from "./typed";

type Test = ReturnType<typeof typed>;

/** Error values that a person would see; the graph leaves out its #N/A on purpose. */
function errorsShown({ book, evaluation }: Test): string[] {
  const graph = book.sheets.findIndex(({ name }) => name === sheets.graph);
  return evaluation.cells
    .filter(({ sheet, outcome }) => sheet !== graph && outcome.evaluated && outcome.value instanceof ErrorValue)
    .map(({ address }) => address);
}

describe("forms that are not filled in", () => {
  const runs = ["Depressurization", "Depressurization 2", "Pressurization", "Pressurization 2"];
  const empty = Object.assign({}, ...runs.map((run) => ({ ...without(run), ...filled(run, "FG", [7, 12]) }))) as Record<
    string,
    CellValue
  >;

  it("show no error at all while no run has readings", () => {
    const test = typed(empty);
    expect(errorsShown(test)).toEqual([]);
    expect(summary(test, "Verdict")).toBe("open");
    expect(condition(test, "Directions with readings")[2]).toBe("open");
  });

  it("show none where one direction is left out and accepted", () => {
    const test = typed({
      ...acceptOne,
      ...without("Pressurization"),
      ...without("Depressurization 2"),
      "Criteria!I18": "either",
    });
    expect(errorsShown(test)).toEqual([]);
    expect(summary(test, "Verdict")).toBe("pass");
    expect(summary(test, "Air change rate n50, pressurization")).toBe("not tested");
    expect(cell(test, "Uncertainty!D36")).toBe("depressurization");
  });

  it("count a second run as soon as it is filled in, its checks too", () => {
    const copied = Object.fromEntries(
      [...filledFrom("CDEF", [24, 35]), ...filledFrom("DEFGHIJKLM", [16, 17]), ...filledFrom("FG", [7, 12])].map(
        (address) => [`Pressurization 2!${address}`, cell(typed({}), `Pressurization!${address}`)],
      ),
    );
    const test = typed(copied);
    expect(cell(test, "Results!G7")).toBe("yes");
    expect(summary(test, "Air change rate n50, pressurization")).toBe(
      summary(typed({}), "Air change rate n50, pressurization"),
    );
    expect(check(test, 3, "count")).toEqual([9, "≥ 5", "met"]);
    expect(summary(test, "Verdict")).toBe("pass");
    const tooFew = typed({
      ...copied,
      ...Object.fromEntries(
        [28, 29, 30, 31, 32].flatMap((row) =>
          "CDEF".split("").map((letter) => [`Pressurization 2!${letter}${row}`, null]),
        ),
      ),
    });
    expect(check(tooFew, 3, "count")[2]).toBe("not met");
    expect(summary(tooFew, "Verdict")).toBe("not valid");
  });

  function filledFrom(letters: string, [first, last]: readonly [number, number]): string[] {
    return [...letters].flatMap((letter) =>
      Array.from({ length: last - first + 1 }, (_, index) => `${letter}${first + index}`),
    );
  }
});

describe("a table whose values are frozen", () => {
  // Programs differ on whether an empty text that was frozen is a text or a blank cell.
  it("shows no 0 where a value is blank", () => {
    const test = typed({ "Depressurization!AB33": null, "Results!F43": null });
    expect(cell(test, "Depressurization!AA33")).toBe("qE50");
    expect(cell(test, "Results!D17")).toBe("");
    expect(cell(test, "Results!B17")).toContain("Specific leakage rate");
    expect(summary(test, "Probability that the limit is met")).toBe("");
    expect(cell(test, "Cover!G29")).toBe("");
  });
});

describe("the main line by native formulas", () => {
  const word = (test: Test) => cell(test, `${sheets.shadow}!G6`);

  it("confirms every figure to nine digits, by standards with and without viscosity", () => {
    expect(word(typed({}))).toBe("confirms");
    expect(word(typed({ "Criteria!J6": "ASTM E779" }))).toBe("confirms");
    expect(condition(typed({}), "Native formulas")[2]).toBe("met");
  });

  it.each(["Phius", "Canada, NBC 2020 reference", "England, Part L 2021, at 4 Pa", "US Army Corps of Engineers"])(
    "confirms what decides by the criterion %s, and its plain verdict",
    (criterion) => {
      const test = typed({ "Criteria!C6": criterion });
      const decides = summary(test, "Result that decides") as number;
      expect(cell(test, `${sheets.shadow}!D14`)).toBeCloseToRelative(decides);
      expect(cell(test, `${sheets.shadow}!G14`)).toBe("confirms");
      const limit = summary(test, "Limit of the criterion") as number;
      expect(cell(test, `${sheets.shadow}!D15`)).toBe(decides <= limit ? "pass" : "fail");
    },
  );

  it("follows a reading that is typed anew", () => {
    const test = typed({ "Depressurization!F26": 250.1, "Pressurization!D27": 44.6 });
    expect(word(test)).toBe("confirms");
    expect(cell(test, `${sheets.shadow}!D10`)).toBeCloseToRelative(
      summary(test, "Air change rate n50, mean") as number,
    );
  });

  it.each([
    "weighted",
    "organic correlation",
    "weighted organic correlation",
    "errors in both",
    "weighted with expected exponent",
  ])("says that it is not for the technique %s, which gives a result all the same", (technique) => {
    const test = typed({ "Criteria!J7": technique });
    expect(word(test)).toBe("not for this technique");
    expect(condition(test, "Native formulas")[2]).toBe("not tested");
    expect(condition(test, "Steps of the readings")[2]).toBe("met");
    expect(summary(test, "Verdict")).toBe("pass");
    expect(summary(test, "Air change rate n50, mean")).not.toBe(summary(typed({}), "Air change rate n50, mean"));
  });

  it("differs where the add-in's own figure is another one", () => {
    // A constant over the add-in's density factor: its steps no longer belong to the readings.
    const test = typed({ "Depressurization!R12": 0.96 });
    expect(word(test)).toBe("differs");
    expect(condition(test, "Steps of the readings")[2]).toBe("not met");
    expect(summary(test, "Verdict")).toBe("not valid");
  });
});

describe("the form in inch-pound units", () => {
  const foot = 0.3048;
  const [flow, pound, mercury, mile] = [foot ** 3 * 60, 0.45359237 / foot ** 3, 3386.389, 0.44704];
  const bytes = new Uint8Array(readFileSync(new URL("../../sample-workbooks/final-test-ip.xlsx", import.meta.url)));
  const inchPound = openWorkbook(bytes).book;
  const evaluation = evaluateBook(inchPound, { addIn: addInRegistry() });
  const theirs = { book: inchPound, evaluation };
  const number = (value: CellValue, convert: (value: number) => number) =>
    typeof value === "number" ? convert(value) : value;
  /** Everything that is typed there and has a unit, as it would be typed in the metric form. */
  const converted: Record<string, CellValue> = {};
  const take = (
    sheet: string,
    letters: string,
    [first, last]: readonly [number, number],
    convert: (one: number) => number,
  ) => {
    for (const letter of letters)
      for (let row = first; row <= last; row++) {
        const place = `${sheet}!${letter}${row}`;
        converted[place] = number(cell(theirs, place), convert);
      }
  };
  const metres = (feet: number) => feet * foot;
  const celsius = (degrees: number) => (degrees - 32) / 1.8;
  take("Rooms", "DEG", [7, 24], metres);
  take("Rooms", "E", [29, 29], metres);
  take("Rooms", "E", [34, 34], metres);
  take("Rooms", "CDFG", [38, 45], metres);
  take("Rooms", "F", [68, 70], metres);
  take("Firm", "D", [23, 30], (one) => one * flow);
  take("Firm", "D", [32, 32], (one) => one * pound);
  for (const run of ["Depressurization", "Depressurization 2", "Pressurization"]) {
    take(run, "FG", [7, 8], celsius);
    take(run, "FG", [11, 11], (one) => one * mercury);
    take(run, "FG", [12, 12], (one) => one * mile);
  }
  take("Uncertainty", "D", [16, 17], (one) => one / 1.8);
  take("Uncertainty", "D", [18, 18], (one) => one * mercury);

  it.each(["Phius", "R-2000, leakage area", "Passive house, new build"])(
    "gives the same results as the metric one, typed in metres and degrees Celsius (%s)",
    (criterion) => {
      const choice = { "Criteria!C6": criterion };
      const metric = typed({ ...converted, ...choice });
      const set = [{ sheet: "Criteria", row: 5, column: 2, value: criterion }];
      const other = { book: inchPound, evaluation: evaluateBook(inchPound, { addIn: addInRegistry(), set }) };
      const factors: Readonly<Record<string, number>> = {
        cfm: flow,
        "ft³": foot ** 3,
        "ft²": foot ** 2,
        "cfm/ft²": foot * 60,
        "in²": 6.4516,
        "in²/100 ft²": 6.4516 / (100 * foot ** 2),
      };
      const area = namedCell(inchPound, "Summary");
      let compared = 0;
      for (let row = area.top; row <= area.bottom; row++) {
        const at = (test: Test, column: number) =>
          cellAt(test.book, test.evaluation, area.sheet, row, area.left + column);
        const [value, wanted] = [at(other, 1), at(metric, 1)];
        const unit = at(other, 2);
        if (typeof value === "number" && typeof wanted === "number") {
          const factor = typeof unit === "string" ? (factors[unit] ?? 1) : 1;
          expect(value * factor, `line ${row + 1}`).toBeCloseToRelative(wanted);
          compared += 1;
        } else expect(value).toEqual(wanted);
      }
      expect(compared).toBeGreaterThan(13);
    },
  );

  it("has its own native formulas, which confirm it", () => {
    expect(cell(theirs, `${sheets.shadow}!G6`)).toBe("confirms");
  });

  it("points out °C where °F are meant", () => {
    expect(cell(theirs, "Pressurization!B13")).toBe("");
    const place = (address: string, value: number) => ({
      sheet: "Pressurization",
      row: Number(address.slice(1)) - 1,
      column: address.charCodeAt(0) - 65,
      value,
    });
    // One cell alone: a mean over both would look like a cool room.
    const celsius = evaluateBook(inchPound, { addIn: addInRegistry(), set: [place("F7", 20.5)] });
    const mistyped = { book: inchPound, evaluation: celsius };
    expect(cell(mistyped, "Pressurization!B13")).toBe("Indoors hardly °F: was °C typed? 20 °C is 68 °F.");
    expect(condition(mistyped, "Temperatures likely to be in °F")).toEqual(["plausible", "hardly", "look into it"]);
  });
});
