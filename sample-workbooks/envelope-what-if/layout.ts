import { onSheet } from "../blocks/address";

/** Sheet names, in the order of the tabs. */
export const sheets = {
  overview: "Overview",
  targets: "Targets",
  sensitivity: "Sensitivity",
  variants: "Variants",
  plan: "Odd plan",
  ladder: "Sizes and targets",
  components: "Components",
  library: "Library",
  fan: "Fan",
  use: "In use",
  limits: "Limits",
  notes: "Notes",
} as const;

export const footer = "Estimate of airtightness before building; no test result";

/** Variants that stand side by side, spare rows included. */
export const variantCount = 8;

/** First rows of the three tables on the sheet Variants; each has a row a variant. */
export const variantRows = { outline: 9, counted: 22, allowed: 35 } as const;

type Table = keyof typeof variantRows;

/** A column of one of the tables on the sheet Variants. */
function ofVariants(table: Table, column: string): string {
  const first = variantRows[table];
  return onSheet(sheets.variants, `${column}${first}:${column}${first + variantCount - 1}`);
}

/** The columns that other sheets look at. */
export const variantColumns = {
  name: ofVariants("outline", "B"),
  from: ofVariants("outline", "C"),
  meanHeight: ofVariants("outline", "V"),
  partitions: ofVariants("outline", "J"),
  storeys: ofVariants("outline", "P"),
  wholeVolume: ofVariants("outline", "T"),
  wallLength: ofVariants("outline", "U"),
  perimeter: ofVariants("outline", "N"),
  height: ofVariants("outline", "O"),
  criterion: ofVariants("counted", "C"),
  quantity: ofVariants("counted", "F"),
  pressure: ofVariants("counted", "I"),
  limit: ofVariants("counted", "J"),
  unit: ofVariants("counted", "K"),
  volume: ofVariants("counted", "L"),
  envelopeArea: ofVariants("counted", "M"),
  floorArea: ofVariants("counted", "N"),
  flow: ofVariants("allowed", "C"),
  airChangeRate: ofVariants("allowed", "E"),
  perEnvelopeArea: ofVariants("allowed", "F"),
  leakageArea: ofVariants("allowed", "H"),
  budget: ofVariants("allowed", "K"),
  known: ofVariants("allowed", "L"),
  share: ofVariants("allowed", "M"),
  left: ofVariants("allowed", "N"),
  hole: ofVariants("allowed", "O"),
} as const;

/** The value of the base or of the variant in a column that has a row a variant; blank while none is chosen. */
export function chosen(which: "Base" | "Variant", column: string): string {
  return `IF(${which}Index="","",INDEX(${column},${which}Index))`;
}
