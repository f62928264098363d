import type { GraphTarget } from "./data";
import { locateBeyondPaper, comparedAt, type Layout, formatSignificant, formatTick } from "./axes";
import { colours } from "./line-style";
import { writeElement, writePath } from "./svg";
import { type Box, isOverlapping, fitText, drawText, measureTextBox, type TextLook } from "./text";

const half = 24;
const first: TextLook = { size: 12, bold: true, edge: true };
const second: TextLook = { size: 11, colour: colours.grey, edge: true };
const lineHeight = 14;

/** The words beside a limit: the flow, then its origin. */
export function describeTarget({ pressure, flow, words }: GraphTarget, flowUnit: string): [string, string] {
  const at = pressure === comparedAt ? "" : ` at ${formatTick(pressure)} Pa`;
  return [
    `limit ${formatSignificant(flow, 4)
      .replace(/(\.\d*?)0+$/, "$1")
      .replace(/\.$/, "")} ${flowUnit}${at}`,
    words,
  ];
}

interface Candidate {
  readonly x: number;
  readonly y: number;
  readonly anchor: "start" | "middle" | "end";
}

/**
 * Marks each limit by a bar at its pressure, hatched on the failing side, with its words where they obscure least. Limits beyond the grid are
 * arrows at its edge.
 */
export function drawTargets(
  targets: readonly GraphTarget[],
  layout: Layout,
  flowUnit: string,
  traces: readonly (readonly [number, number])[],
  marks: readonly Box[],
): string {
  const taken: Box[] = [];
  const room = (layout.right - layout.left) / 2 - half - 12;
  return [...targets]
    .sort((one, other) => other.flow - one.flow)
    .map((target) => {
      const x = layout.pressure.place(target.pressure);
      const beyond = locateBeyondPaper(target, layout);
      const y =
        beyond === "above" ? layout.top + 16 : beyond === "below" ? layout.bottom - 16 : layout.flow.place(target.flow);
      const [flow, from] = describeTarget(target, flowUnit);
      const texts: [string, string] = [fitText(flow, room, 12, true), fitText(from, room, 11)];
      const chosen = chooseBestPlace(listCandidates(x, y), texts, layout, traces, marks, taken);
      taken.push(...chosen.boxes, { left: x - half, right: x + half, top: y - 9, bottom: y + 3 });
      return [
        Math.abs(chosen.place.y - y) > 30 ? drawTie(x, y, chosen.place) : "",
        beyond === undefined ? drawCeiling(x, y) : drawArrow(x, y, beyond),
        drawText(chosen.place.x, chosen.place.y, texts[0], { ...first, anchor: chosen.place.anchor }),
        from === ""
          ? ""
          : drawText(chosen.place.x, chosen.place.y + lineHeight, texts[1], { ...second, anchor: chosen.place.anchor }),
      ].join("");
    })
    .join("");
}

function drawCeiling(x: number, y: number): string {
  const hatch = [-18, -9, 0, 9, 18].map((offset) =>
    writePath([
      [x + offset - 3, y],
      [x + offset + 4, y - 7],
    ]),
  );
  return (
    writeElement("path", { d: hatch.join(""), fill: "none", stroke: colours.ink, "stroke-width": 1 }) +
    writeElement("line", { x1: x - half, y1: y, x2: x + half, y2: y, stroke: colours.ink, "stroke-width": 2.6 })
  );
}

function drawArrow(x: number, y: number, beyond: "above" | "below"): string {
  const up = beyond === "above" ? -1 : 1;
  const head = writePath(
    [
      [x, y + 12 * up],
      [x + 6, y + 2 * up],
      [x - 6, y + 2 * up],
    ],
    true,
  );
  return (
    writeElement("line", { x1: x, y1: y + 2 * up, x2: x, y2: y - 12 * up, stroke: colours.ink, "stroke-width": 2.6 }) +
    writeElement("path", { d: head, fill: colours.ink })
  );
}

/** Joins words to their mark if they are apart. */
function drawTie(x: number, y: number, place: Candidate): string {
  const side = place.anchor === "end" ? -1 : 1;
  const d = writePath([
    [x + side * half, y],
    [place.x - side * 3, place.y + 4],
  ]);
  return writeElement("path", { d, fill: "none", stroke: colours.ink, "stroke-width": 0.7 });
}

/** Positions around a mark, best first. */
function listCandidates(x: number, y: number): Candidate[] {
  const found: Candidate[] = [];
  for (const lift of [0, -22, 22, -44, 44, -70, 70, -100, 100]) {
    found.push(
      { x: x + half + 8, y: y - 2 + lift, anchor: "start" },
      { x: x - half - 8, y: y - 2 + lift, anchor: "end" },
    );
  }
  return found;
}

function chooseBestPlace(
  places: readonly Candidate[],
  [flow, from]: readonly [string, string],
  { left, right, top, bottom }: Layout,
  traces: readonly (readonly [number, number])[],
  marks: readonly Box[],
  taken: readonly Box[],
): { place: Candidate; boxes: Box[] } {
  const judged = places.map((place, rank) => {
    const boxes = [measureTextBox(place.x, place.y, flow, { ...first, anchor: place.anchor })];
    if (from !== "")
      boxes.push(measureTextBox(place.x, place.y + lineHeight, from, { ...second, anchor: place.anchor }));
    let cost = rank;
    for (const box of boxes) {
      const wide = { left: box.left - 3, right: box.right + 3, top: box.top - 2, bottom: box.bottom + 2 };
      if (wide.left < left || wide.right > right || wide.top < top || wide.bottom > bottom) cost += 100_000;
      for (const other of taken) if (isOverlapping(wide, other)) cost += 10_000;
      for (const other of marks) if (isOverlapping(wide, other)) cost += 500;
      for (const [x, y] of traces) if (isOverlapping(wide, { left: x, right: x, top: y, bottom: y })) cost += 20;
    }
    return { place, boxes, cost };
  });
  return judged.reduce((best, one) => (one.cost < best.cost ? one : best));
}
