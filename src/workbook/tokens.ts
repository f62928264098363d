import { palette } from "./palette";

const read = (name: keyof typeof palette) => `#${palette[name]}`;

/** The colours of pages in light, dark and print, from the palette of the workbooks. Every page takes them from here. */
export const tokens = `
:root{color-scheme:light dark;--ground:#FFFFFF;--ink:${read("ink")};--soft:${read("grey")};--rule:${read("rule")};--accent:${read("petrol")};--pale:${read("petrolPale")};--mark:${read("copper")};--pass:${read("pass")};--fail:${read("fail")};--open:${read("open")}}
@media (prefers-color-scheme:dark){:root{--ground:#12191C;--ink:#E8EEF0;--soft:#A9BBBF;--rule:#41545A;--accent:#8FC7D2;--pale:#1D2A2F;--mark:#E29A66;--pass:#7FCDB2;--fail:#F0A394;--open:#C9BFA8}}
@media print{:root{--ground:#FFFFFF;--ink:#000000;--soft:#444444;--rule:#999999;--accent:#000000;color-scheme:light}}
`.trim();
