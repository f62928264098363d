import { describe, expect, it } from "vitest";
import { formatCellText } from "../../../src/workbook/page/cell-text";

describe("a value as its cell shows it", () => {
  it.each<[value: number, pattern: string, shown: string]>([
    [0.99, "# ??/??", "0.99"],
    [7.9999, "# ?/8", "7.9999"],
    [45000, "d/m/yyyy", "15/3/2023"],
    [0.5, '0.0" m/s"', "0.5 m/s"],
  ])("%s under %s is %s", (value, pattern, shown) => {
    expect(formatCellText(value, pattern, false)).toBe(shown);
  });
});
