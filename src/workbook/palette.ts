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

const read = (name: keyof typeof palette) => `#${palette[name]}`;

/** The colours of pages in light, dark and print, from the palette of the workbooks. Every page takes them from here. */
export const tokens = `
:root{color-scheme:light dark;--ground:#FFFFFF;--ink:${read("ink")};--soft:${read("grey")};--rule:${read("rule")};--accent:${read("petrol")};--pale:${read("petrolPale")};--mark:${read("copper")};--pass:${read("pass")};--fail:${read("fail")};--open:${read("open")}}
@media (prefers-color-scheme:dark){:root{--ground:#12191C;--ink:#E8EEF0;--soft:#A9BBBF;--rule:#41545A;--accent:#8FC7D2;--pale:#1D2A2F;--mark:#E29A66;--pass:#7FCDB2;--fail:#F0A394;--open:#C9BFA8}}
@media print{:root{--ground:#FFFFFF;--ink:#000000;--soft:#444444;--rule:#999999;--accent:#000000;--pale:${read("petrolPale")};--mark:${read("copper")};--pass:${read("pass")};--fail:${read("fail")};--open:${read("open")};color-scheme:light}}
`.trim();
