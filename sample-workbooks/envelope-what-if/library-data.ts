/** How a component's leakage is given. */
export type Kind = "flow" | "leakage area, 4 Pa" | "hole, 50 Pa";

export interface Component {
  readonly name: string;
  readonly unit: "m²" | "m" | "piece";
  readonly kind: Kind;
  /** m³/h at the rated pressure, or cm², per unit. */
  readonly leakage: number;
  /** Rated pressure of a flow, Pa. */
  readonly pressure?: number;
  readonly exponent: number;
  /** C: read in a published text. M: from memory, to be checked. "practice": common practice, no source. */
  readonly mark: "C" | "M" | "practice";
  readonly source: string;
}

const standardClass = (name: string, leakage: number): Component => ({
  name,
  unit: "m²",
  kind: "flow",
  leakage,
  pressure: 100,
  exponent: 2 / 3,
  mark: "C",
  source: "EN 12207:2016, class by area; exponent 2/3 (M)",
});

const element = (name: string, unit: Component["unit"], leakage: number): Component => ({
  name,
  unit,
  kind: "leakage area, 4 Pa",
  leakage,
  exponent: 0.65,
  mark: "C",
  source: "NIST library of residential leakage elements, app. C2; n assumed",
});

const hole = (name: string, leakage: number): Component => ({
  name,
  unit: "piece",
  kind: "hole, 50 Pa",
  leakage,
  exponent: 0.5,
  mark: "practice",
  source: "common practice, no source: the real hole, discharge coefficient 0.6",
});

/** What components leak; the sheet is the user's to change and to extend. */
export const components: readonly Component[] = [
  standardClass("Windows, class 1", 50),
  standardClass("Windows, class 2", 27),
  standardClass("Windows, class 3", 9),
  standardClass("Windows, class 4", 3),
  standardClass("External door, class 2", 27),
  standardClass("External door, class 3", 9),
  standardClass("External door, class 4", 3),
  element("External single door, typical", "piece", 21),
  element("External single door, tight", "piece", 12),
  element("Joint of wall and floor, typical", "m", 4),
  element("Joint of wall and floor, tight", "m", 0.8),
  element("Joint of ceiling and wall, typical", "m", 1.5),
  element("Joint of ceiling and wall, tight", "m", 0.5),
  {
    ...element("Joint, membrane taped and plastered", "m", 0.08),
    mark: "practice",
    source: "common practice, no source",
  },
  element("Ceiling, general, typical", "m²", 1.8),
  element("Ceiling, general, tight", "m²", 0.79),
  element("Attic hatch, typical", "piece", 30),
  element("Attic hatch, tight", "piece", 18),
  element("Bathroom exhaust, typical", "piece", 20),
  element("Bathroom exhaust, tight", "piece", 10),
  element("Kitchen exhaust, typical", "piece", 40),
  element("Kitchen exhaust, tight", "piece", 5),
  element("Duct through the ceiling, typical", "piece", 5),
  element("Duct through the ceiling, tight", "piece", 1),
  hole("Pipe or cable with grommet", 0.1),
  hole("Pipe or cable, foamed", 0.5),
  hole("Pipe or cable, open hole around it", 8),
];
