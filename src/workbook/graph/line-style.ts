import { palette } from "../palette";
import type { GraphLine } from "./data";
import { writeElement, writePath } from "./svg";

export type Marker = "circle" | "diamond" | "triangle" | "square" | "kite" | "flag";

/** How one line and its readings look: colour, shape and dashes each identify it on their own. */
export interface Look {
  readonly colour: string;
  readonly marker: Marker;
  /** Undefined for a solid line. */
  readonly dash: string | undefined;
}

const hash = (colour: string) => `#${colour}`;

export const colours = {
  ink: hash(palette.ink),
  grey: hash(palette.grey),
  rule: hash(palette.rule),
  hair: hash(palette.hair),
  white: hash(palette.white),
} as const;

export const depressurization: Look = { colour: hash(palette.petrol), marker: "circle", dash: undefined };
export const pressurization: Look = { colour: hash(palette.copper), marker: "diamond", dash: "8 4" };
const others: readonly Look[] = [
  { colour: hash(palette.open), marker: "triangle", dash: "2 3" },
  { colour: hash(palette.ink), marker: "square", dash: "12 3 2 3" },
  { colour: hash(palette.grey), marker: "kite", dash: "5 2" },
  { colour: hash(palette.fail), marker: "flag", dash: "1 2" },
];

/** As many lines as can be distinguished without colour. */
export const mostLines = 6;

/** A style for each line: each direction keeps its own, further runs get different ones. */
export function chooseLooks(lines: readonly GraphLine[]): Look[] {
  const free = [...others];
  const own = new Map([
    ["depressurization", depressurization],
    ["pressurization", pressurization],
  ]);
  return lines.map(({ look }) => {
    const taken = own.get(look);
    own.delete(look);
    return taken ?? free.shift() ?? depressurization;
  });
}

const half = 5;

/** A circle extends slightly beyond a diamond, so that both are visible where two readings coincide. */
const radius = 6;

const corners: Readonly<Record<Exclude<Marker, "circle">, readonly (readonly [number, number])[]>> = {
  diamond: [
    [0, -1.12],
    [1.12, 0],
    [0, 1.12],
    [-1.12, 0],
  ],
  triangle: [
    [0, -1.05],
    [1.15, 1.05],
    [-1.15, 1.05],
  ],
  square: [
    [-0.95, -0.95],
    [0.95, -0.95],
    [0.95, 0.95],
    [-0.95, 0.95],
  ],
  kite: [
    [0, 1.05],
    [1.15, -1.05],
    [-1.15, -1.05],
  ],
  flag: [
    [-0.5, -1.2],
    [0.5, -1.2],
    [0.5, 1.2],
    [-0.5, 1.2],
  ],
};

/** A reading's mark: filled if used; open, with a cross, if kept but excluded. */
export function mark({ colour, marker }: Look, x: number, y: number, kind: "used" | "excluded", title = ""): string {
  const told = title === "" ? "" : writeElement("title", {}, title);
  const fill = kind === "used" ? colour : colours.white;
  const outline = { fill, stroke: kind === "used" ? colours.white : colour, "stroke-width": kind === "used" ? 1 : 1.2 };
  const shape =
    marker === "circle"
      ? writeElement("circle", { cx: x, cy: y, r: radius, ...outline }, told)
      : writeElement(
          "path",
          {
            d: writePath(
              corners[marker].map(([across, down]) => [x + half * across, y + half * down] as const),
              true,
            ),
            ...outline,
          },
          told,
        );
  if (kind === "used") return shape;
  const reach = half + 3;
  const cross = [
    [-reach, -reach, reach, reach],
    [-reach, reach, reach, -reach],
  ].map(([x1 = 0, y1 = 0, x2 = 0, y2 = 0]) =>
    writeElement("line", { x1: x + x1, y1: y + y1, x2: x + x2, y2: y + y2, stroke: colour, "stroke-width": 1.4 }),
  );
  return shape + cross.join("");
}

/** The radius of a mark. */
export const markReach = half + 3;
