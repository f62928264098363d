import { describe, expect, it } from "vitest";
import type { CellValue } from "../../src/workbook/index";
import { fanFlowByHand } from "./envelope-by-hand";
import "./look-up";
import { errorsOf, sample, type Typed } from "./sample";

const { typed, typedCells } = sample("test-day.xlsx");
const asStored = typed();

/** Hydrostatics: dry air at 101 325 Pa outdoors, the pressure at a height about the neutral height, indoors minus outdoors. */
function stackByHand(outdoors: number, height: number, neutral: number, indoors = 20): number {
  const density = 101_325 / (287.055 * (outdoors + 273.15));
  return (density * 9.80665 * (height - neutral) * (indoors - outdoors)) / (indoors + 273.15);
}

const windByHand = (speed: number) => 0.5 * 1.2041 * speed ** 2;

const panel = (test: Typed) => test.cell("Day!B15");
const outcome = (test: Typed, row: number) => test.cell(`Weather!Q${row}`);

describe("the weather, by hand", () => {
  it("gives stack and wind for each part of the day, and the baseline between them", () => {
    for (const [row, outdoors, gusts] of [
      [19, 3, 18],
      [21, 6, 41],
      [23, 4, 33],
    ] as const) {
      const stack = stackByHand(outdoors, 1, 4.2);
      const wind = windByHand((gusts / 3.6) * 0.5);
      expect(asStored.cell(`Weather!L${row}`)).toBeCloseToRelative(stack);
      expect(asStored.cell(`Weather!M${row}`)).toBeCloseToRelative(stackByHand(outdoors, 8.4, 4.2));
      expect(asStored.cell(`Weather!N${row}`)).toBeCloseToRelative(wind);
      expect(asStored.cell(`Weather!O${row}`)).toBeCloseToRelative(stack - 0.3 * wind);
      expect(asStored.cell(`Weather!P${row}`)).toBeCloseToRelative(stack + 0.3 * wind);
      expect(asStored.cell(`Weather!F${row}`)).toBeCloseToRelative(8.4 * (20 - outdoors));
    }
  });

  it("turns the forecast's unit into m/s and into the Beaufort number", () => {
    expect(asStored.cell("Weather!G19")).toBeCloseToRelative(11 / 3.6);
    expect([19, 20, 21, 22, 23].map((row) => asStored.cell(`Weather!K${row}`))).toEqual([2, 3, 4, 5, 3]);
    const knots = typed({ "Weather!D10": "kn" });
    expect(knots.cell("Weather!G19")).toBeCloseToRelative((11 * 1852) / 3600);
  });

  it("takes names of parts of the day that a computer could read as a time", () => {
    const test = typed({ "Weather!B19": "9h", "Day!C13": "9h" });
    expect(test.cell("Day!E13")).toBe(1);
    expect(panel(test)).toBe(panel(asStored));
  });

  it("says which parts of the day are possible, and what speaks against the others", () => {
    expect(outcome(asStored, 19)).toBe("possible");
    expect(outcome(asStored, 21)).toBe("doubtful: wind, Beaufort, baseline");
    expect(outcome(asStored, 23)).toBe("doubtful: Beaufort, baseline");
    expect(outcome(asStored, 25)).toBe("");
  });

  it("follows a neutral height that is not the middle", () => {
    const lifted = typed({ "Weather!D9": 6 });
    expect(lifted.cell("Weather!L19")).toBeCloseToRelative(stackByHand(3, 1, 6));
  });

  it("takes a wind near the ground as it is, and compares it with the limit there", () => {
    const ground = typed({ "Weather!D11": "near the ground" });
    expect(ground.cell("Weather!I19")).toBeCloseToRelative(11 / 3.6);
    expect(ground.cell("Weather!J7")).toBe(3);
    expect(outcome(ground, 19)).toContain("wind");
  });
});

describe("the limits of the standards", () => {
  /** From the published standards and from memory of them, as the marks on the sheet say. */
  const limits = {
    "ISO 9972": [250, 3, 6, 2, 5, 10, 5, 50, 5, 13],
    "EN 13829": [500, 3, 6, 2, 5, 10, 5, 50, 5, 13],
    "ASTM E779": [200, 2, null, null, null, 10, null, null, 5, 10],
    "ASTM E3158": [null, null, null, null, null, 25, 100 / 30, 50, 5, null],
    "CGSB 149.10": [null, 20 / 3.6, 20 / 3.6, null, null, 15, null, 50, 8, 5],
    "CGSB 149.10-2019": [null, 20 / 3.6, 20 / 3.6, null, null, 15, null, 50, 8, null],
    "RESNET/ICC 380 multi-point": [null, null, null, null, null, 10, null, 60, 5, null],
  };

  it("stand on their sheet", () => {
    const found: unknown[] = [];
    for (let row = 8; row <= 20; row++) {
      const name = asStored.cell(`Standards!B${row}`);
      const wanted = limits[name as keyof typeof limits] as readonly (number | null)[] | undefined;
      if (wanted) found.push(name);
      wanted?.forEach((limit, index) => {
        const value = asStored.cell(`Standards!${"DEFGHIJKLM".charAt(index)}${row}`);
        if (limit === null) expect(value ?? "").toBe("");
        else expect(value).toBeCloseToRelative(limit);
      });
    }
    expect(found).toEqual(Object.keys(limits));
    expect(asStored.cell("Standards!B14")).toBe("CGSB 149.10");
  });

  it("decide with the standard that is chosen", () => {
    const tall = { "Weather!D6": 16 };
    expect(outcome(typed(tall), 19)).toContain("height × ΔT");
    expect(outcome(typed({ ...tall, "Day!C11": "EN 13829" }), 19)).not.toContain("height × ΔT");
    expect(panel(typed(tall))).toBe("DOUBTFUL");
    const none = typed({ "Day!C11": "ASTM E3158" });
    expect(none.cell("Weather!J6")).toBe("no limit");
    expect(none.cell("Pressures!C18")).toBe(25);
  });

  it("leave the answer open for a standard that the sheet does not have", () => {
    const unknown = typed({ "Standards!B8": null });
    expect(panel(unknown)).toBe("OPEN");
    expect(outcome(unknown, 19)).toBe("open");
  });
});

describe("the pressures to set", () => {
  it("start at the highest and end where the standard and the baseline ask, the gauge's reading beside", () => {
    const baseline = stackByHand(3, 1, 4.2);
    const largest = Math.abs(baseline) + 0.3 * windByHand((18 / 3.6) * 0.5);
    const lowest = Math.ceil(5 * largest);
    expect(asStored.cell("Pressures!C19")).toBe(lowest);
    for (let station = 0; station < 10; station++) {
      const induced = 60 - (station * (60 - lowest)) / 9;
      expect(asStored.cell(`Pressures!C${25 + station}`)).toBeCloseToRelative(-induced);
      expect(asStored.cell(`Pressures!D${25 + station}`)).toBeCloseToRelative(-induced + baseline);
      expect(asStored.cell(`Pressures!F${25 + station}`)).toBeCloseToRelative(induced + baseline);
    }
    expect(asStored.cell("Pressures!C35") ?? "").toBe("");
  });

  it("take the baseline that was read on site instead of the expected one", () => {
    const read = typed({ "Pressures!C9": -1.2 });
    expect(read.cell("Pressures!D25")).toBeCloseToRelative(-61.2);
    expect(read.cell("Pressures!C19"), "10 Pa, for five baselines are less").toBe(10);
  });

  it("refuse a lowest pressure that is less than the standard asks", () => {
    const low = typed({ "Pressures!C6": 12 });
    expect(low.cell("Day!F27")).toBe("not met");
    expect(panel(low)).toBe("DOUBTFUL");
  });

  it("say that nothing can be set where the baseline asks for more than the highest pressure", () => {
    const storm = typed({ "Weather!E19": 95 });
    expect(errorsOf(storm)).toEqual([]);
    expect(storm.cell("Pressures!C19")).toBeGreaterThan(60);
    expect(storm.cell("Pressures!C25") ?? "").toBe("");
    expect(storm.cell("Pressures!D19")).toContain("no list");
    expect(storm.cell("Day!F28")).toBe("not met");
    expect(storm.cell("Day!B35")).toContain("nothing to set");
    expect(storm.cell("Day!B38")).toBe("");
  });

  it("follow another number of stations", () => {
    const six = typed({ "Pressures!C8": 6, "Pressures!C6": 20 });
    expect(six.cell("Pressures!C26")).toBeCloseToRelative(-52);
    expect(six.cell("Pressures!C30")).toBeCloseToRelative(-20);
    expect(six.cell("Pressures!B31")).toBe("");
  });
});

describe("the fan", () => {
  it("gives the flow of the expected leakage at the densities of the hour", () => {
    expect(asStored.cell("Fan!D44")).toBeCloseToRelative(fanFlowByHand(1.4 * 486, 60, 20, 3));
    expect(asStored.cell("Day!C31")).toBe("A");
    expect(asStored.cell("Day!B38")).toBe(
      "At the lowest pressure: “B” depressurizing, “B” pressurizing; the opening may have to be changed on the way.",
    );
  });

  it("says so when no opening gives it", () => {
    const leaky = typed({ "Fan!C7": 9 });
    expect(leaky.cell("Day!F31")).toBe("not met");
    expect(panel(leaky)).toBe("DOUBTFUL");
  });
});

describe("the preparation", () => {
  const states = (test: Typed) => [8, 10, 11, 14, 18].map((row) => test.cell(`Preparation!D${row}`));

  it("closes or seals each opening by the method", () => {
    expect(states(asStored)).toEqual(["sealed", "sealed", "sealed", "closed", "sealed"]);
    const inUse = typed({ "Day!C12": "method 1" });
    expect(states(inUse)).toEqual(["closed", "sealed", "closed", "closed", "closed"]);
    const certificate = typed({ "Day!C12": "method 3", "Preparation!E8": "open" });
    expect(states(certificate).slice(0, 2)).toEqual(["open", "to be specified"]);
  });

  it("counts what is not yet done", () => {
    expect(asStored.cell("Day!C42")).toBe(8);
    expect(typed({ "Preparation!F8": "done", "Preparation!F10": "n/a" }).cell("Day!C42")).toBe(6);
    expect(asStored.cell("Day!C45")).toBe(11);
    expect(typed({ "Cautions!D6": "done" }).cell("Day!C45")).toBe(10);
  });
});

describe("the answer", () => {
  it("is likely for the morning, doubtful for the afternoon and for a certificate out of date", () => {
    expect(panel(asStored)).toBe("LIKELY");
    expect(panel(typed({ "Day!C13": "14 to 16" }))).toBe("DOUBTFUL");
    expect(panel(typed({ "Day!G11": 46_000 }))).toBe("DOUBTFUL");
    expect(panel(typed({ "Day!C13": null }))).toBe("OPEN");
    expect(panel(typed({ "Weather!D19": null, "Weather!E19": null }))).toBe("OPEN");
  });

  it.each([false, true])("an empty form stays calm (blank cells as zero: %s)", (blankAsZero) => {
    const empty = typed(Object.fromEntries(typedCells.map((place) => [place, null as CellValue])), blankAsZero);
    expect(errorsOf(empty)).toEqual([]);
    expect(panel(empty)).toBe("OPEN");
  });

  it.each(["Day!C11", "Day!C12", "Day!C13", "Weather!C19", "Weather!D7", "Pressures!C7", "Pressures!C8", "Fan!C7"])(
    "a blank in %s gives blanks, no error",
    (place) => {
      expect(errorsOf(typed({ [place]: null }))).toEqual([]);
    },
  );
});
