import { describe, expect, it } from "vitest";
import { Inspector, readLabels } from "../../../src/workbook/book/inspector";
import { parsePlace } from "../../../src/workbook/book/address";
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

describe("where it is known which cells are for typing into", () => {
  const cells = {
    ...{ A1: "room", B1: "storey", C1: "length, m" },
    ...{ A2: "Kitchen", B2: "ground", C2: 4.2 },
    ...{ A3: "Hall", B3: "upper", C3: 3.1 },
    ...{ E1: "instrument", F1: "type", G1: "serial number" },
    ...{ E2: "Fan pressure gauge", F2: "digital, lower input", G2: "GA-2207" },
    ...{ A6: "Client", B6: "Teasel House" },
    ...{ A7: "Address", B7: "5 Dune End" },
  };
  const book = bookOf([sheet("Sheet1", cells)]);
  const inputs = new Set(
    ["A2", "B2", "C2", "A3", "B3", "C3", "F2", "G2", "B6", "B7"].map((at) => String(Object.values(parsePlace(at)!))),
  );
  const labels = readLabels(book, evaluateBook(book), (_, row, column) => inputs.has(String([row, column])));

  it.each([
    ["A3", "room"],
    ["C2", "Kitchen, length"],
    ["C3", "Hall, length"],
    ["G2", "Fan pressure gauge, serial number"],
    ["B7", "Address"],
  ])("%s is called “%s”", (address, text) => {
    const { row, column } = parsePlace(address)!;
    expect(labels.describeAt(0, row, column).text).toBe(text);
  });
});
