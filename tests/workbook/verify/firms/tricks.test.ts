import { describe, expect, it } from "vitest";
import { slow } from "../../../time-outs";
import { saidOf } from "../bare";
import { tricks } from "./tricks";

/** Every trick was written before the checks were looked at; each must be found with a cell of it named. */
describe("what is changed in an honest workbook of a firm", { timeout: slow }, () => {
  it.each(tricks)("$kind: $name", ({ firm: { sheets, more }, cells }) => {
    const said = saidOf(sheets, undefined, more).map((line) => line.replaceAll("'", ""));
    const isNamed = said.some((line) => cells.some((cell) => line.includes(cell)));
    expect(isNamed, said.join("\n")).toBe(true);
  });
});
