import { describe, expect, it } from "vitest";
import { drawLeakageGraph } from "../../../src/workbook/graph/leakage-graph";
import { measureText } from "../../../src/workbook/graph/text";
import { cases, lineOf } from "./cases";
import { fontWidths } from "./font";
import { all, marksOf, numberOf, readSvg, wordsOf, type Drawn } from "./read-svg";
import { misplacedWords } from "./words-apart";

const drawings = Object.entries(cases).map(([name, data]) => [name, data, readSvg(drawLeakageGraph(data))] as const);

/** The axis as its numbers tell it: values are read off the paper by a line through the logarithms of two numbers. */
function readOff(numbers: readonly Drawn[], along: "x" | "y"): (place: number) => number {
  const ticks = numbers.map((number) => {
    const value = Number(number.text.replace(/\u2009/g, ""));
    const shift = along === "y" ? 0.36 * numberOf(number, "font-size") : 0;
    return { place: numberOf(number, along) - shift, log: Math.log(value) };
  });
  const [first, last] = [ticks[0], ticks.at(-1)];
  if (!first || !last || first === last) throw new Error("an axis needs two numbers");
  const slope = (last.log - first.log) / (last.place - first.place);
  return (place) => Math.exp(first.log + slope * (place - first.place));
}

const isNumber = ({ text }: Drawn) => /^[\d.\u2009]+$/.test(text);

describe.each(drawings)("%s", (_, data, svg) => {
  const words = wordsOf(svg);
  const pressures = words.filter((word) => isNumber(word) && word.attributes["text-anchor"] === "middle");
  const [frame] = all(svg, "clipPath").flatMap((clip) => all(clip, "rect"));
  const left = frame ? numberOf(frame, "x") : NaN;
  const bottom = frame ? numberOf(frame, "y") + numberOf(frame, "height") : NaN;
  const flows = words.filter(
    (word) =>
      isNumber(word) &&
      word.attributes["text-anchor"] === "end" &&
      numberOf(word, "x") < left &&
      numberOf(word, "y") < bottom + 10,
  );

  it("shows every reading where the axes say that it lies, used ones filled, others open", () => {
    const pressureAt = readOff(pressures, "x");
    const flowAt = readOff(flows, "y");
    const read = marksOf(svg).map(({ x, y, filled }) => ({ pressure: pressureAt(x), flow: flowAt(y), filled }));
    const readings = data.lines.flatMap(({ used, excluded }) => [
      ...used.map((point) => ({ ...point, filled: true })),
      ...excluded.map((point) => ({ ...point, filled: false })),
    ]);
    expect(read).toHaveLength(readings.length);
    for (const { pressure, flow, filled } of readings) {
      // A hundredth of a unit of the drawing is far below one in a thousand on any of these axes.
      const same = (one: number, other: number) => Math.abs(one / other - 1) < 1e-3;
      expect(
        read.some((mark) => same(mark.pressure, pressure) && same(mark.flow, flow) && mark.filled === filled),
      ).toBe(true);
    }
  });

  it("has axes that rise, with at least two numbers each", () => {
    for (const [numbers, along, sign] of [
      [pressures, "x", 1],
      [flows, "y", -1],
    ] as const) {
      const values = numbers.map(({ text }) => Number(text.replace(/\u2009/g, "")));
      expect(values.length).toBeGreaterThanOrEqual(2);
      values.slice(1).forEach((value, index) => {
        expect(value).toBeGreaterThan(values[index] ?? Infinity);
        const [before, after] = [numbers[index], numbers[index + 1]];
        expect(
          sign * ((after ? numberOf(after, along) : NaN) - (before ? numberOf(before, along) : NaN)),
        ).toBeGreaterThan(0);
      });
    }
  });

  it("keeps all words on the paper and apart from each other", () => {
    expect(misplacedWords(svg)).toEqual([]);
  });

  it("names each line beside it and in the table, and each limit", () => {
    const texts = words.map(({ text }) => text);
    for (const { exponent, name } of data.lines) {
      expect(texts).toContain(`n ${exponent.value.toFixed(3)}`);
      expect(
        texts.filter((text) => name.startsWith(text.replace(/…$/, "").slice(0, 12))).length,
      ).toBeGreaterThanOrEqual(2);
    }
    expect(texts.filter((text) => text.startsWith("limit "))).toHaveLength(data.targets.length);
  });

  it("is one picture with a name and a description that holds its figures", () => {
    expect(svg.attributes["role"]).toBe("img");
    const byId = (id = "") =>
      [...all(svg, "title"), ...all(svg, "desc")].find(({ attributes }) => attributes["id"] === id)?.text;
    expect(byId(svg.attributes["aria-labelledby"])).toContain(data.title);
    const description = byId(svg.attributes["aria-describedby"]) ?? "";
    for (const { name, exponent, used } of data.lines) {
      expect(description).toContain(`${name}: ${used.length} readings`);
      expect(description).toContain(`n ${exponent.value.toFixed(3)}`);
    }
    for (const { words: from } of data.targets) expect(description).toContain(from);
  });

  it("draws nothing outside a page's policy and no number that is none", () => {
    const text = drawLeakageGraph(data);
    expect(text).not.toMatch(/NaN|Infinity|undefined|<style|\sstyle=|<script|href|javascript:/);
  });
});

describe("the band", () => {
  it("is the fit's own: at the middle of the readings ±t·s/√N of the flow's logarithm", () => {
    const line = lineOf({ pressures: [20, 40, 80], off: [0.01, -0.02, 0.01] });
    const svg = readSvg(drawLeakageGraph({ ...(cases["both"] as (typeof cases)[string]), lines: [line], targets: [] }));
    const flows = wordsOf(svg).filter(
      (word) => isNumber(word) && word.attributes["text-anchor"] === "end" && numberOf(word, "x") < 90,
    );
    const flowAt = readOff(
      flows.filter((word) => numberOf(word, "y") < 500),
      "y",
    );
    const edges = all(svg, "path").filter(({ attributes }) => attributes["stroke-opacity"] === "0.75");
    const middle = edges.map(({ attributes }) => {
      const points = [...(attributes["d"] ?? "").matchAll(/[ML]\S+ ([^ML]+)/g)].map(([, y]) => flowAt(Number(y)));
      return points[(points.length - 1) / 2] ?? NaN;
    });
    // By hand: x = ln 20, 40, 80 lie evenly, so that ln q = m + r with r from the residuals of ln(1.01), ln(0.98), ln(1.01) about their mean.
    const logs = [1.01, 0.98, 1.01].map(Math.log);
    const mean = (logs[0]! + logs[1]! + logs[2]!) / 3;
    const s = Math.sqrt(logs.reduce((sum, log) => sum + (log - mean) ** 2, 0));
    const t = 12.7062047361747; // Student's t, 95 % two-sided, one degree of freedom (tan(0.475 π)).
    const level = Math.log(13 * 40 ** 0.67) + mean;
    const expected = [1, -1].map((side) => Math.exp(level + (side * t * s) / Math.sqrt(3)));
    middle.forEach((flow, index) => expect(flow / (expected[index] ?? NaN)).toBeCloseTo(1, 3));
  });
});

describe("refusals", () => {
  const both = cases["both"] as (typeof cases)[string];
  it("of what cannot be drawn", () => {
    expect(() => drawLeakageGraph({ ...both, lines: [] })).toThrow(/at least one line/);
    expect(() => drawLeakageGraph({ ...both, lines: Array(7).fill(lineOf({})) as typeof both.lines })).toThrow(
      /at most 6/,
    );
    expect(() => drawLeakageGraph({ ...both, targets: [{ pressure: 50, flow: 0, words: "" }] })).toThrow(/above 0/);
    expect(() => drawLeakageGraph({ ...both, lines: [lineOf({ excluded: [{ pressure: NaN, flow: 3 }] })] })).toThrow(
      /above 0/,
    );
  });
});

describe("widths of letters", () => {
  const [regular, bold] = ["400Regular/Arimo_400Regular.ttf", "700Bold/Arimo_700Bold.ttf"].map((file) =>
    fontWidths(`@expo-google-fonts/arimo/${file}`),
  );

  it("are those of the font that pictures are drawn with", () => {
    for (const letter of "0123456789 .,:;()%°²³·–−≤≥≈√ΔAZMWTafijlmrtwxyz'\"&/…") {
      expect([letter, Math.round(regular?.(letter) ?? NaN)]).toEqual([letter, measureText(letter, 1000)]);
    }
  });

  it("cover bold words as a whole", () => {
    for (const word of [
      "depressurization",
      "pressurization",
      "limit 217 m³/h",
      "50 Pa",
      "limit 2 400 000 cfm at 75 Pa",
    ]) {
      const width = [...word].reduce((sum, letter) => sum + (bold?.(letter) ?? NaN), 0);
      expect(measureText(word, 1000, true)).toBeGreaterThanOrEqual(width);
    }
  });
});
