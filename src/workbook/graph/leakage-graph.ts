import { usualConfidence } from "../../core/index";
import type { ComputedRun } from "../book/tests/computed-runs";
import type { TestLimit } from "../book/tests/test-limits";
import type { HouseTest } from "../book/tests/tests-in-book";
import { drawAxes, formatFixed, planLayout, listReadings, formatSignificant, width } from "./axes";
import { drawBand, drawFittedLine, traceLine, drawReadings } from "./curves";
import type { GraphData, GraphLine, GraphTarget } from "./data";
import { drawLineLabels } from "./line-labels";
import { colours, chooseLooks, markReach, mostLines } from "./line-style";
import { drawResultsTable } from "./results-table";
import { writeElement } from "./svg";
import { escapeHtml } from "../html";
import { drawTargets, describeTarget } from "./targets";
import { fitText, drawText } from "./text";

/**
 * The air leakage graph of a test as SVG text: readings, fitted lines and confidence bands on logarithmic axes, 50 Pa, limits, and the figures below. It needs no
 * style sheet, script or font file, so it works in a page, a file or a pane alike.
 * @param name Prefix of the ids used within the picture; must be unique on a page.
 * Errors: RangeError for no line, more than six lines, or a value not above 0.
 * Source: ISO 9972:2015, air leakage graph (log–log, both directions).
 */
export function drawLeakageGraph(data: GraphData, name = "graph"): string {
  requireDrawable(data);
  const { lines, title, subtitle, flowUnit, targets } = data;
  const looks = chooseLooks(lines);
  const layout = planLayout(data, subtitle === "" ? 70 : 86);
  const marks = lines.flatMap((line) =>
    listReadings(line).map(({ pressure, flow }) => {
      const [x, y] = [layout.pressure.place(pressure), layout.flow.place(flow)];
      return { left: x - markReach, right: x + markReach, top: y - markReach, bottom: y + markReach };
    }),
  );
  const traces = lines.flatMap((line) => traceLine(line, layout));
  const drawEach = (draw: (line: (typeof lines)[number], look: (typeof looks)[number]) => string) =>
    lines.map((line, index) => draw(line, looks[index] as (typeof looks)[number])).join("");
  const { left, right, top, bottom } = layout;
  const frame = writeElement("rect", { x: left, y: top, width: right - left, height: bottom - top });
  const table = drawResultsTable(data, looks, bottom + 66);
  const height = Math.ceil(table.bottom + 6);
  const content = [
    writeElement("title", { id: `${name}-title` }, escapeHtml(subtitle === "" ? title : `${title}: ${subtitle}`)),
    writeElement("desc", { id: `${name}-description` }, escapeHtml(describeInWords(data))),
    writeElement("defs", {}, writeElement("clipPath", { id: `${name}-frame` }, frame)),
    writeElement("rect", { x: 0, y: 0, width, height, fill: colours.white }),
    drawText(16, 28, fitText(title, width - 32, 18), { size: 18 }),
    subtitle === "" ? "" : drawText(16, 47, fitText(subtitle, width - 32, 12), { size: 12, colour: colours.grey }),
    drawAxes(layout, flowUnit),
    writeElement(
      "g",
      { "clip-path": `url(#${name}-frame)` },
      drawEach((line, look) => drawBand(line, look, layout)) +
        drawEach((line, look) => drawFittedLine(line, look, layout)),
    ),
    drawLineLabels(lines, looks, layout),
    drawEach((line, look) => drawReadings(line, look, layout, flowUnit)),
    drawTargets(targets, layout, flowUnit, traces, marks),
    table.svg,
  ];
  const attributes = {
    xmlns: "http://www.w3.org/2000/svg",
    viewBox: `0 0 ${width} ${height}`,
    width,
    height,
    role: "img",
    "aria-labelledby": `${name}-title`,
    "aria-describedby": `${name}-description`,
  };
  return writeElement("svg", attributes, content.join("\n"));
}

function requireDrawable({ lines, targets }: GraphData): void {
  if (lines.length === 0) throw new RangeError("a graph needs at least one line");
  if (lines.length > mostLines) throw new RangeError(`a graph shows at most ${mostLines} lines`);
  const values = [
    ...targets.flatMap(({ pressure, flow }) => [pressure, flow]),
    ...lines.flatMap((line) => listReadings(line).flatMap(({ pressure, flow }) => [pressure, flow])),
  ];
  if (lines.some(({ used }) => used.length === 0)) throw new RangeError("a line needs its readings");
  if (!values.every((value) => value > 0 && value < Infinity)) throw new RangeError("pressures and flows are above 0");
}

/** The graph in words, for those who cannot see it. */
export function describeInWords({ lines, targets, flowUnit }: GraphData): string {
  const limits = targets.map((target) => {
    const [flow, from] = describeTarget(target, flowUnit);
    return `${flow}${target.pressure === 50 ? " at 50 Pa" : ""}${from === "" ? "" : ` (${from})`}`;
  });
  return [
    `Air leakage graph on logarithmic axes: flow through the envelope in ${flowUnit} against induced pressure difference in Pa.`,
    ...lines.map((line) => describeLine(line, flowUnit)),
    limits.length === 0 ? "No limit is marked." : `Marked: ${limits.join("; ")}.`,
  ].join(" ");
}

function describeLine(
  { name, used, excluded, exponent, coefficient, determination, q50 }: GraphLine,
  unit: string,
): string {
  const pressures = used.map(({ pressure }) => pressure);
  const range = `from ${formatSignificant(Math.min(...pressures), 3)} to ${formatSignificant(Math.max(...pressures), 3)} Pa`;
  const out = excluded.length === 0 ? "" : `, ${excluded.length} more not used`;
  return (
    `${name}: ${used.length} readings ${range}${out}; C ${formatSignificant(coefficient, 4)}, n ${formatFixed(exponent.value, 3)}, ` +
    `r² ${formatFixed(determination, 4)}, q50 ${formatSignificant(q50.value, 4)} ${unit}.`
  );
}

/** The graph of a test: names that distinguish its runs, the origin of its limits, and a note on the figures. */
export function describeGraph(
  { runs, limits }: HouseTest,
  words: { readonly title: string; readonly subtitle: string },
): GraphData {
  const [first] = runs;
  const lines = runs.map((run) => nameLine(run, runs));
  const targets = limits.map(({ pressure, flow, stated }): GraphTarget => ({
    pressure,
    flow,
    words: stated ? describeOrigin(stated) : "",
  }));
  return {
    ...words,
    flowUnit: first?.flowUnit ?? "in the sheet's unit of flow",
    lines,
    targets,
    confidence: first?.confidence ?? usualConfidence,
    note: `${describeConditions(runs, targets)}${describeTechnique(runs, lines)}`,
  };
}

const describeOrigin = ({ quantity, value, unit }: NonNullable<TestLimit["stated"]>): string =>
  `${quantity} ${formatPlainNumber(value)} ${unit}`.trim();

function formatPlainNumber(value: number): string {
  return Math.abs(value) < 1e-4 ? formatSignificant(value, 3) : String(Number(value.toPrecision(6)));
}

/**
 * A direction occurring once is name enough. Several runs are named by their sheet, which may include the direction, or by cell if they
 * share a sheet; beside these a single one is named by such a sheet too.
 */
function nameLine(run: ComputedRun, runs: readonly ComputedRun[]): GraphLine {
  const { direction, curve, sheetName, cell } = run;
  const name = nameDirection(run);
  const look = direction ?? "other";
  const alike = runs.filter((other) => other.direction === direction);
  const ownSheets = new Set(alike.map((other) => other.sheetName)).size === alike.length;
  const saysIt = ownSheets && new RegExp(`(?<!\\p{L})${name}`, "iu").test(sheetName);
  const isEachAlone = new Set(runs.map((other) => other.direction)).size === runs.length;
  if (isEachAlone || (alike.length === 1 && !saysIt)) return { ...curve, look, name };
  return { ...curve, look, name: saysIt ? sheetName : `${name}, ${ownSheets ? sheetName : cell}` };
}

/** What a run is, in a word or two. */
export const nameDirection = ({ direction }: ComputedRun): string => direction ?? "leakage curve";

/** How the lines were fitted, unless by ordinary least squares, and the influence of an expected exponent on each. */
function describeTechnique(runs: readonly ComputedRun[], lines: readonly GraphLine[]): string {
  const techniques = new Set(runs.map(({ fit }) => fit.technique));
  if (techniques.size === 1 && techniques.has("ordinary")) return "";
  const shares = runs.flatMap(({ fit }, index) =>
    fit.prior === undefined ? [] : `${(100 * fit.prior.share).toFixed(0)} % in ${lines[index]?.name}`,
  );
  const prior = shares.length === 0 ? "" : ` Prior on n for houses weighs ${shares.join(", ")}; the limits include it.`;
  return ` Technique of the line: ${[...techniques].join("; ")}.${prior}`;
}

function describeConditions(runs: readonly ComputedRun[], targets: readonly GraphTarget[]): string {
  if (!runs.every(({ atReference }) => atReference)) return "All values are at the conditions of the test.";
  const limit = targets.length > 0 ? "q50 and the limit are" : "q50 is";
  return (
    `${limit} at reference conditions (20 °C, 101 325 Pa, dry air); readings, C and lines are at the conditions of the test, ` +
    `so a line crosses 50 Pa slightly off q50.`
  );
}
