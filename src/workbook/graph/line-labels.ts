import type { GraphLine } from "./data";
import { findDrawnRange, formatFixed, type Layout, width } from "./axes";
import { colours, type Look, mark } from "./line-style";
import { writeElement, writePath } from "./svg";
import { fitText, drawText, wrapText } from "./text";

const gap = 30;
const size = 11.5;
const lineHeight = 14;
/** Bold letters are wider, so lines wrap as if the space were narrower. */
const boldShare = 1.12;
const textStart = gap + 16;

/** Positions of labels beside the frame: as near to the ends of their lines as possible without overlapping. */
function spreadOut(wanted: readonly number[], heights: readonly number[], top: number, bottom: number): number[] {
  const order = wanted.map((_, index) => index).sort((one, other) => (wanted[one] ?? 0) - (wanted[other] ?? 0));
  const places = [...wanted];
  let free = top;
  for (const index of order) {
    places[index] = Math.max(free, wanted[index] ?? 0);
    free = (places[index] ?? 0) + (heights[index] ?? 0);
  }
  free = bottom;
  for (const index of order.reverse()) {
    places[index] = Math.min(places[index] ?? 0, free - (heights[index] ?? 0));
    free = places[index] ?? 0;
  }
  return places;
}

/** A name at the end of each line, right of the frame, joined to it by a thin leader. */
export function drawLineLabels(lines: readonly GraphLine[], looks: readonly Look[], layout: Layout): string {
  const ends = lines.map((line): readonly [number, number] => {
    const { to } = findDrawnRange(line);
    return [layout.pressure.place(to), layout.flow.place(line.flowAt(to).value)];
  });
  const room = width - 6 - layout.right - textStart;
  const names = lines.map(({ name }) =>
    wrapText(name, room / boldShare, size, 2).map((text) => fitText(text, room, size, true)),
  );
  const places = spreadOut(
    ends.map(([, y]) => y),
    names.map(({ length }) => (length + 1) * lineHeight + 6),
    layout.top + 10,
    layout.bottom + 8,
  );
  return lines
    .map((line, index) => {
      const look = looks[index];
      const [x = 0, end = 0] = ends[index] ?? [];
      const y = places[index] ?? 0;
      if (!look) return "";
      const start = layout.right + gap;
      const tie = writePath([
        [x + 8, end],
        [layout.right + 4, end],
        [start - 4, y],
      ]);
      const name = names[index] ?? [];
      const text = layout.right + textStart;
      return [
        writeElement("path", { d: tie, fill: "none", stroke: colours.grey, "stroke-width": 0.7 }),
        mark(look, start + 4, y, "used"),
        ...name.map((part, row) =>
          drawText(text, y + 4 + row * lineHeight, part, { size, bold: true, colour: look.colour }),
        ),
        drawText(text, y + 4 + name.length * lineHeight, `n ${formatFixed(line.exponent.value, 3)}`, {
          size: 11,
          colour: colours.grey,
        }),
      ].join("");
    })
    .join("");
}
