import type { GraphData, GraphLine } from "./data";
import { formatFixed, formatSignificant, width } from "./axes";
import { colours, type Look, mark } from "./line-style";
import { writeElement } from "./svg";
import { fitText, drawText, measureText, wrapText } from "./text";

const size = 11.5;
const rowHeight = 20;
const left = 16;
const nameStart = left + 56;
const right = width - 16;

interface Column {
  readonly head: string;
  readonly text: (line: GraphLine) => string;
}

function listColumns(flowUnit: string): Column[] {
  const formatSpan = (lower: string, upper: string) => `${lower} to ${upper}`;
  return [
    { head: "C", text: ({ coefficient }) => formatSignificant(coefficient, 4) },
    { head: "n", text: ({ exponent }) => formatFixed(exponent.value, 3) },
    {
      head: "limits of n",
      text: ({ exponent: { lower, upper } }) => formatSpan(formatFixed(lower, 3), formatFixed(upper, 3)),
    },
    { head: "r²", text: ({ determination }) => formatFixed(determination, 4) },
    { head: `q50, ${flowUnit}`, text: ({ q50 }) => formatSignificant(q50.value, 4) },
    {
      head: "limits of q50",
      text: ({ q50: { lower, upper } }) => formatSpan(formatSignificant(lower, 4), formatSignificant(upper, 4)),
    },
    {
      head: "readings",
      text: ({ used, excluded }) =>
        excluded.length === 0 ? String(used.length) : `${used.length} (${excluded.length} out)`,
    },
  ];
}

/** The table below the graph: each line's style and results. */
export function drawResultsTable(
  data: GraphData,
  looks: readonly Look[],
  top: number,
): { svg: string; bottom: number } {
  const { lines, flowUnit, note } = data;
  const columns = listColumns(flowUnit);
  const gap = 14;
  const widths = columns.map(({ head, text }) =>
    Math.max(measureText(head, 10.5), ...lines.map((line) => measureText(text(line), size))),
  );
  const edges: number[] = [];
  widths.reduceRight((edge, own, index) => ((edges[index] = edge), edge - own - gap), right);
  const nameRoom = (edges[0] ?? right) - (widths[0] ?? 0) - gap - nameStart;
  const parts = [
    ...columns.map(({ head }, index) =>
      drawText(edges[index] ?? 0, top, head, { size: 10.5, colour: colours.grey, anchor: "end" }),
    ),
    drawRule(top + 6),
  ];
  lines.forEach((line, row) => {
    const look = looks[row];
    if (!look) return;
    const y = top + 22 + row * rowHeight;
    const middle = y - 4;
    parts.push(
      writeElement("line", {
        x1: left,
        y1: middle,
        x2: left + 46,
        y2: middle,
        stroke: look.colour,
        "stroke-width": 2,
        "stroke-dasharray": look.dash,
      }),
      mark(look, left + 23, middle, "used"),
      drawText(nameStart, y, fitText(line.name, nameRoom, size), { size }),
      ...columns.map(({ text }, index) => drawText(edges[index] ?? 0, y, text(line), { size, anchor: "end" })),
      drawRule(y + 6, colours.hair),
    );
  });
  let y = top + 24 + lines.length * rowHeight;
  for (const text of wrapText(noteOf(data, note), right - left, 10.5, 4)) {
    parts.push(drawText(left, y, text, { size: 10.5, colour: colours.grey }));
    y += 14;
  }
  return { svg: parts.join(""), bottom: y };
}

function drawRule(y: number, stroke: string = colours.rule): string {
  return writeElement("line", { x1: left, y1: y, x2: right, y2: y, stroke, "stroke-width": 0.8 });
}

/** The meaning of symbols not shown in the table. */
function noteOf({ lines, confidence }: GraphData, note: string): string {
  const crossed = lines.some(({ excluded }) => excluded.length > 0)
    ? " An open, crossed mark is a reading kept but excluded from the fit."
    : "";
  return `Bands and limits: ${Number((100 * confidence).toPrecision(4))} %, from the scatter of the readings.${crossed} ${note}`.trim();
}
