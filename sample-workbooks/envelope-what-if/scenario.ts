import type { DeviceOpening } from "../blocks/fan";
import { daySerial } from "../blocks/style";

/** House, place, people, prices and climate are invented; no such house stands or will stand anywhere. */

export const remark = "Invented firm, house and figures";

export const project = {
  name: "Wherry House",
  address: "Plot 9, Curlew Rise, Tern’s End, Isle of Ought",
  client: "Gwendoline Harkaway",
  estimator: "Perpetua Stroud",
  day: daySerial(2026, 11, 9),
} as const;

interface VariantOutline {
  readonly name: string;
  readonly from: "outline" | "corners";
  readonly length?: number;
  readonly width?: number;
  readonly storeys?: number;
  readonly storeyHeight?: number;
  readonly roof?: string;
  readonly rise?: number;
  /** Share of the volume that partitions and floors take, %. */
  readonly partitions: number;
  readonly criterion: string;
}

const drawn = {
  from: "outline",
  length: 11.2,
  width: 8.4,
  storeys: 2,
  storeyHeight: 2.75,
  roof: "gable",
  rise: 3.6,
  partitions: 11,
} as const;

/** Lengths in m, inside the outer walls. */
export const variants: readonly VariantOutline[] = [
  { name: "As drawn", ...drawn, criterion: "Passive house, retrofit" },
  { name: "One bay longer", ...drawn, length: 14.4, criterion: "Passive house, retrofit" },
  { name: "Tighter limit", ...drawn, criterion: "Passive house, new build" },
  { name: "Older windows", ...drawn, criterion: "Passive house, retrofit" },
  { name: "Flat roof, per area", ...drawn, roof: "flat", rise: 0, criterion: "Phius" },
  { name: "Odd plan", from: "corners", partitions: 11, criterion: "Passive house, retrofit" },
];

export const base = "As drawn";
export const variant = "One bay longer";

/** Limits that are set side by side for the variant. */
export const targets = ["Passive house, retrofit", "Passive house, new build", "Phius"] as const;

/** n where nothing was measured yet. */
export const exponent = 0.65;

type Corners = readonly (readonly [x: number, y: number])[];

/** Inner outlines of the odd plan, m, and clear heights with the floors between them. */
export const plan: readonly { readonly corners: Corners; readonly height: number }[] = [
  {
    corners: [
      [0, 0],
      [12.4, 0],
      [12.4, 5.6],
      [7.8, 5.6],
      [7.8, 9.2],
      [0, 9.2],
    ],
    height: 2.75,
  },
  {
    corners: [
      [0, 0],
      [7.8, 0],
      [7.8, 9.2],
      [0, 9.2],
    ],
    height: 2.6,
  },
];

/** Components of the library: of the joints first, whose lengths follow from the outline, then of what is counted. */
export const joints = [
  "Joint of wall and floor, tight",
  "Joint, membrane taped and plastered",
  "Joint of ceiling and wall, tight",
] as const;

interface CountedComponent {
  readonly component: string;
  readonly where: string;
  /** In each of the variants. */
  readonly amounts: readonly number[];
  /** With which size the amount grows; windows follow no size, they are drawn anew. */
  readonly growsWith?: "floor area" | "fixed";
}

export const amounts: readonly CountedComponent[] = [
  { component: "Windows, class 4", where: "all sides", amounts: [34, 41, 34, 0, 32, 36] },
  { component: "Windows, class 3", where: "all sides", amounts: [0, 0, 0, 34, 0, 0] },
  {
    component: "External door, class 3",
    where: "entrance, terrace",
    amounts: [4.6, 4.6, 4.6, 4.6, 4.6, 6.8],
    growsWith: "fixed",
  },
  {
    component: "Attic hatch, tight",
    where: "to the cold eaves or loft",
    amounts: [1, 1, 1, 1, 0, 1],
    growsWith: "fixed",
  },
  {
    component: "Kitchen exhaust, tight",
    where: "kitchen, outer wall",
    amounts: [1, 1, 1, 1, 1, 1],
    growsWith: "fixed",
  },
  {
    component: "Duct through the ceiling, tight",
    where: "to the cold eaves or loft",
    amounts: [6, 8, 6, 6, 6, 7],
    growsWith: "floor area",
  },
  {
    component: "Pipe or cable with grommet",
    where: "outer walls",
    amounts: [14, 16, 14, 14, 14, 15],
    growsWith: "floor area",
  },
  { component: "Pipe or cable, foamed", where: "slab on the ground", amounts: [5, 5, 5, 5, 5, 5], growsWith: "fixed" },
];

/** Floor area, perimeter and envelope area of the drawings from which each variant's amounts were counted: its own. */
export const countedFor: readonly (readonly [floor: number, perimeter: number, envelope: number])[] = [
  [188.16, 39.2, 463.8],
  [241.92, 45.6, 561.3],
  [188.16, 39.2, 463.8],
  [188.16, 39.2, 463.8],
  [188.16, 39.2, 403.8],
  [169.28, 43.2, 402.2],
];

/** The firm's larger flow device, q = c · p^m in m³/h. */
export const openings: readonly DeviceOpening[] = [
  ["A, largest", 298.4, 0.498, 20, 280],
  ["B, large", 104.1, 0.503, 15, 280],
  ["C, medium", 36.7, 0.506, 15, 280],
  ["D, small", 12.9, 0.51, 20, 280],
];

export const fan = { highest: 60, reserve: 1.5, indoors: 19, outdoors: 7, calibrationDensity: 1.2041 } as const;

export const site = {
  shelterClass: 3,
  flue: "no",
  foundation: "basement or slab",
  exposedSides: "several",
  shielding: "moderate",
  supply: 160,
  extract: 160,
  weatherFactor: 0.62,
  meanDifference: 12.5,
  wind: 4.2,
  designDifference: 27,
  degreeHours: 74_000,
  heatCapacity: 0.34,
  price: 0.11,
  currency: "crowns",
} as const;

/** Targets of the table of sizes and targets, 1/h at 50 Pa. */
export const ladder = [0.4, 0.6, 1, 1.5, 3] as const;
