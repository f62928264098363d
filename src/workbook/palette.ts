/**
 * The fictitious firm's colours. Petrol and copper differ in hue and lightness, so that they are distinguishable to colour-blind readers and in
 * black and white; anything meaningful is also written out or drawn with a different shape.
 */
export const palette = {
  ink: "1D2A2F",
  petrol: "0E4A56",
  petrolMid: "7FA3AA",
  petrolPale: "E9F1F2",
  copper: "B4581A",
  input: "FDF4EB",
  inputEdge: "E2B999",
  grey: "5C6A6F",
  rule: "A9BBBF",
  hair: "D6E0E2",
  pass: "0F5A46",
  fail: "8E2A1C",
  open: "6B6250",
  white: "FFFFFF",
} as const;

/** Arial is on every Windows and Mac, and a metric-compatible font on every Linux, so column widths hold everywhere. */
export const typeface = "Arial";
