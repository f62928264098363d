import { readFileSync } from "node:fs";
import { describe, expect, it } from "vitest";
import { listSeries } from "../../src/taskpane/graph-series";
import { Desk } from "../../src/views/desk/desk";
import { slow } from "../time-outs";

const desk = new Desk();
desk.open(1, "final-test.xlsx", readFileSync("sample-workbooks/final-test.xlsx"));
const answer = desk.drawGraph(1, 0);
const series = listSeries(answer);

describe("the series of the chart of a test in both directions", { timeout: slow }, () => {
  it("are readings and fitted line of each direction, and the limit", () => {
    const named = series.map(({ name, kind }) => `${kind}: ${name}`);
    expect(named.filter((one) => one.startsWith("line:"))).toHaveLength(answer.lines.length);
    expect(named.at(-1)).toMatch(/^limit: limit .* m³\/h \(n50 0\.6 1\/h\)$/);
    const used = series.filter(({ kind }) => kind === "readings").flatMap(({ points }) => points);
    expect(used).toHaveLength(answer.readings.filter(({ isUsed }) => isUsed).length);
  });

  it("draw each line over the range of its readings, by the C and n that the graph states in words", () => {
    const stated = [...answer.description.matchAll(/readings from ([\d.]+) to ([\d.]+) Pa.*?C ([\d.]+), n ([\d.]+)/g)];
    const lines = series.filter(({ kind }) => kind === "line");
    expect(stated).toHaveLength(lines.length);
    lines.forEach(({ points }, index) => {
      const [, from, to, coefficient, exponent] = stated[index]!.map(Number);
      expect(points.map(([pressure]) => Number(pressure.toPrecision(3)))).toEqual([from, to]);
      for (const [pressure, flow] of points) expect(flow / (coefficient! * pressure ** exponent!)).toBeCloseTo(1, 2);
    });
  });

  it("mark the limit at its pressure, with its name where the lines leave room", () => {
    const limit = series.at(-1)!;
    expect(limit.points.map(([pressure]) => pressure)).toEqual([50]);
    // This house passes: its limit is above the lines.
    expect(limit.labelled).toBe("Left");
    const failing = { ...answer, limits: answer.limits.map((one) => ({ ...one, flow: one.flow / 3 })) };
    expect(listSeries(failing).at(-1)!.labelled).toBe("Right");
  });
});
