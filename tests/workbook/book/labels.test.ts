import { expect, it } from "vitest";
import { Inspector } from "../../../src/workbook/book/inspector";
import { evaluateBook } from "../../../src/workbook/formula/evaluate";
import { bookOf, sheet } from "../formula/book";

it.each([
  ["Temperature (°C)", "Temperature", "°C"],
  ["Wind speed, m/s", "Wind speed", "m/s"],
  ["Specific leakage [m³/(h·m²)]", "Specific leakage", "m³/(h·m²)"],
  ["Passive house, q50 ≤ 0.6 m³/(h·m²)", "Passive house, q50 ≤ 0.6 m³/(h·m²)", ""],
])("the label “%s” is “%s” in “%s”", (text, words, unit) => {
  const book = bookOf([sheet("Sheet1", { A1: text, B1: 3 })]);
  const { labels } = new Inspector(book, evaluateBook(book), new Map(), undefined);
  expect(labels.describeAt(0, 0, 1)).toMatchObject({ text: words, unit });
});
