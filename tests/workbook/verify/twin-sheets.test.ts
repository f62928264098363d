import { expect, it } from "vitest";
import { house, put, saidOf, settings, type Cells } from "./bare";
import { slow } from "../../time-outs";

/** One direction on a sheet of its own, with flows that formulas turn from L/s into m³/h. */
function directionSheet(direction: "depressurization" | "pressurization"): Cells {
  const [pressures, flows] =
    direction === "depressurization" ? [house.down, house.flowsDown] : [house.up, house.flowsUp];
  const [before, after] =
    direction === "depressurization" ? [house.before, house.after] : [house.beforeUp, house.afterUp];
  const cells: Cells = { A1: "building Pa", B1: "flow L/s", C1: "flow m³/h" };
  put(cells, "A2", pressures);
  put(
    cells,
    "B2",
    flows.map((flow) => Number((flow / 3.6).toFixed(2))),
  );
  put(
    cells,
    "C2",
    flows.map((_, index) => ({ f: `B${index + 2}*3.6` })),
  );
  put(cells, "G3", before);
  put(cells, "H3", after);
  put(cells, "D2", [{ f: "MIN(A2:A9)" }, { f: "MAX(A2:A9)" }, { f: "MAX(C2:C9)" }, { f: "AVERAGE(G3:G7)" }]);
  const range = settings(cells, { volume: { f: "Rooms!B1" } });
  cells["AA2"] = {
    f: `_xldudf_STILLAIR_TESTRESULT("${direction}",A2:A9,C2:C9,G3:G7,H3:H7,${range})`,
    ref: "AA2:AG42",
  };
  return cells;
}

const workbook = (change: (up: Cells) => void): Record<string, Cells> => {
  const up = directionSheet("pressurization");
  change(up);
  return { Rooms: { A1: "volume", B1: 300 }, Down: directionSheet("depressurization"), Up: up };
};

it(
  "what the second direction's sheet fetches from the first is right where it was not measured there",
  { timeout: slow },
  () => {
    expect(saidOf(workbook(() => undefined))).toEqual([]);
    expect(saidOf(workbook((up) => (up["B60"] = { f: "Down!B60" })))).toEqual([]);
  },
);

it("a figure typed on one sheet is not typed over because the other sheet fetches it", { timeout: slow }, () => {
  expect(saidOf(workbook((up) => put(up, "B62", [{ f: "Down!B62" }, { f: "Down!B63" }])))).toEqual([]);
});

it("a step that reads the other direction's readings is found", { timeout: slow }, () => {
  const said = saidOf(workbook((up) => (up["D4"] = { f: "MAX(Down!C2:C9)" })));
  expect(said).toEqual([expect.stringMatching(/^error: wrong direction's cells in Up!D4/)]);
  expect(saidOf(workbook((up) => (up["C5"] = { f: "Down!C5" })))).toContainEqual(
    expect.stringMatching(/^error: wrong direction's cells in Up!C5/),
  );
});
