import {
  chooseLooks,
  describeGraph,
  describeInWords,
  describeTarget,
  drawLeakageGraph,
  type GraphData,
  type HouseTest,
  mostLines,
} from "../../workbook/index";
import type { GraphAnswer } from "./answers";
import { type Desktop, formatPlace } from "./opened";
import { Refusal } from "./refusal";

export const listGraphs = ({ tests }: Desktop): HouseTest[] =>
  tests.tests.filter(({ runs }) => runs.length > 0 && runs.length <= mostLines);

export const nameGraph = ({ runs }: HouseTest): string => runs.map(({ cell }) => cell).join(" and ");

/** The air leakage graph of a test, and its readings with their cells. */
export function drawGraph(desktop: Desktop, index: number): GraphAnswer {
  const test = listGraphs(desktop)[index];
  if (!test) throw Refusal.of("noGraph");
  const title = nameGraph(test);
  const data = describeGraph(test, { title: "Air leakage graph", subtitle: title });
  const readings = test.runs.flatMap((run, line) => {
    const name = data.lines[line]?.name ?? "";
    const entered = desktop.tests.findEntered(run);
    // The drawing and the table list the readings that the fit left out before those that it used, each in the order of the sheet.
    const places = (counts: boolean) =>
      (entered?.readings ?? []).filter((reading) => reading.counts === counts).map(({ pressure }) => pressure);
    const list = (points: typeof run.curve.used, counts: boolean) => {
      const cells = places(counts);
      return points.map(({ pressure, flow }, at) => {
        const cell = cells.length === points.length ? cells[at] : undefined;
        return { line: name, pressure, flow, isUsed: counts, address: cell ? formatPlace(desktop, cell) : "" };
      });
    };
    return [...list(run.curve.excluded, false), ...list(run.curve.used, true)];
  });
  return {
    title,
    svg: drawLeakageGraph(data, `graph-${index + 1}`),
    readings,
    lines: listLines(data),
    limits: data.targets.map((target) => ({ ...target, words: nameLimit(target, data.flowUnit) })),
    flowUnit: data.flowUnit,
    description: describeInWords(data),
  };
}

function listLines({ lines }: GraphData): GraphAnswer["lines"] {
  const looks = chooseLooks(lines);
  return lines.map((line, index) => {
    const pressures = line.used.map(({ pressure }) => pressure);
    const ends = [Math.min(...pressures), Math.max(...pressures)];
    const { colour, marker } = looks[index]!;
    const drawn = ends.map((pressure) => ({ pressure, flow: line.flowAt(pressure).value }));
    return { name: line.name, colour, marker, ends: drawn };
  });
}

function nameLimit(target: GraphData["targets"][number], flowUnit: string): string {
  const [flow, origin] = describeTarget(target, flowUnit);
  return origin === "" ? flow : `${flow} (${origin})`;
}
