import { palette } from "./palette";

/** How cells look wherever we write some: in our own sheets, and from the pane in the firm's. Letter sizes are for our own sheets only. */
export interface CellLook {
  readonly size?: number;
  readonly bold?: boolean;
  readonly colour?: string;
  readonly fill?: string;
  /** The colour of a line below each row. */
  readonly bottom?: string;
  /** The colour of a line around each cell. */
  readonly edge?: string;
  readonly align?: "left" | "right";
  readonly indent?: number;
}

export const cellLooks = {
  heading: { size: 10.5, bold: true, colour: palette.petrol, bottom: palette.petrol },
  columnHeadLeft: { size: 8, colour: palette.grey, align: "left", bottom: palette.rule },
  columnHead: { size: 8, colour: palette.grey, align: "right", bottom: palette.rule },
  label: { bottom: palette.hair },
  unit: { size: 8, colour: palette.grey, align: "left", indent: 1, bottom: palette.hair },
  note: { size: 8, colour: palette.grey },
  /** A cell to type into: copper tint and a copper edge. */
  input: { fill: palette.input, edge: palette.inputEdge, align: "right" },
  native: { bottom: palette.hair, align: "right" },
  strong: { bold: true, bottom: palette.hair },
  /** A cell that the add-in fills. */
  fromAddIn: { fill: palette.petrolPale, bottom: palette.hair },
} as const satisfies Readonly<Record<string, CellLook>>;

/** A number format with a true minus sign. */
export function decimals(count: number): string {
  const digits = count === 0 ? "0" : `0.${"0".repeat(count)}`;
  return `${digits};"−"${digits}`;
}

/** A day in a narrow cell; the month in letters, so that no locale reads it the wrong way round. */
export const shortDay = "d mmm yyyy";

/** Pascals are whole, inches of mercury are not. */
export const barometer = "[>=1000]0;0.00";

/** From an air change rate to a flow: as many digits as say something. */
export const byResult = "[>=100]0.0;[>=10]0.00;0.0000";
