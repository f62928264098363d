/**
 * The invented firm's colours. Petrol and copper differ in hue and in lightness, so that they stay apart for colour-blind eyes and on a
 * black and white printer; whatever carries meaning is also written out or drawn with another shape.
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

/** Arial is on every Windows and Mac, and its metric twin is on every Linux, so that column widths hold everywhere. */
export const typeface = "Arial";
