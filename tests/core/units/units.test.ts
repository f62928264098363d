import { describe, expect, test } from "vitest";
import { convertUnits } from "../../../src/core";
import { refuses } from "../refusals";

refuses("invalid", [
  ["from: unknownUnit", () => convertUnits(1, "furlong", "m"), { unit: "furlong" }],
  ["to: unknownUnit", () => convertUnits(1, "Pa", "ergs"), { unit: "ergs" }],
  // Mega is no milli, though letter case is free elsewhere.
  ["from: unknownUnit", () => convertUnits(1, "Mm", "m"), { unit: "Mm" }],
  ["from: unknownUnit", () => convertUnits(1, "Mbar", "Pa"), { unit: "Mbar" }],
  ["to: otherQuantity", () => convertUnits(1, "cfm", "Pa"), { from: "cfm", to: "Pa", is: "flow", wanted: "pressure" }],
  [
    "to: otherQuantity",
    () => convertUnits(1, "K", "cm²/m²"),
    { from: "K", to: "cm²/m²", is: "temperature", wanted: "leakage area per area" },
  ],
  ["value: belowAbsoluteZero", () => convertUnits(-273.16, "°C", "K"), { got: -273.16 }],
  ["value: belowAbsoluteZero", () => convertUnits(-1, "K", "K"), { got: -1 }],
]);

test("absolute zero itself", () => {
  expect(convertUnits(-273.15, "°C", "K")).toBe(0);
  expect(convertUnits(0, "K", "°C")).toBe(-273.15);
});

test("a flow below 0 is a flow", () => {
  expect(convertUnits(-1000, "L/s", "m³/s")).toBe(-1);
});

describe("a unit is found however it is spelt", () => {
  test.each([
    ["M3/H", "m³/h"],
    [" m^3 / h ", "m³/h"],
    ["CFM", "cfm"],
    ["c", "°C"],
    ["F", "°F"],
    ["pa*s", "Pa·s"],
    ["lb/(ft s)", "lb/(ft·s)"],
    ["INH2O 60F", "inH2O 60 °F"],
    ["MPH", "mph"],
    ["mj", "MJ"],
  ])("%s is %s", (spelt, name) => {
    expect(convertUnits(12.5, spelt, name)).toBe(12.5);
  });
});

test("a value stays itself between two spellings of one unit, without rounding", () => {
  expect(convertUnits(0.1 + 0.2, "cfm", "CFM")).toBe(0.1 + 0.2);
});

describe("NIST SP 811 (2008), appendix B: factors as printed there, to their last digit", () => {
  test.each([
    [1, "ft", "m", 0.3048],
    [1, "in", "mm", 25.4],
    [1, "ft²", "m²", 0.09290304],
    [1, "in²", "cm²", 6.4516],
    [1, "ft³", "m³", 0.028316846592],
    [1, "cfm", "m³/s", 4.719474432e-4],
    [1, "psi", "Pa", 6894.757293168361],
    [1, "inHg", "Pa", 3386.389],
    [1, "mmHg", "Pa", 133.3224],
    [1, "inH2O 4 °C", "Pa", 249.082],
    [1, "inH2O 39.2 °F", "Pa", 249.082],
    [1, "inH2O 60 °F", "Pa", 248.84],
    [1, "inH2O conventional", "Pa", 249.0889],
    [1, "mbar", "Pa", 100],
    [1, "hPa", "Pa", 100],
    [1, "kPa", "Pa", 1000],
    [1, "bar", "Pa", 1e5],
    [1, "mph", "m/s", 0.44704],
    [1, "kn", "m/s", 1852 / 3600],
    [1, "km/h", "m/s", 1 / 3.6],
    [1, "kW", "W", 1000],
    [1, "Btu/h", "W", 1055.05585262 / 3600],
    [1, "Btu", "MJ", 1.05505585262e-3],
    [1, "kBtu", "Btu", 1000],
    [1, "kWh", "MJ", 3.6],
    [1, "Wh", "MJ", 3.6e-3],
    [1, "lb/(ft·s)", "Pa·s", 1.488163943569554],
    [1, "lb/ft³", "kg/m³", 16.01846337396014],
    [1, "L", "m³", 1e-3],
    [1, "L/min", "L/s", 1 / 60],
    [1, "m³/h", "L/s", 1 / 3.6],
    [1, "cm", "m", 1e-2],
    [1, "cfm/ft²", "m³/(h·m²)", 18.288],
    [1, "L/(s·m²)", "m³/(h·m²)", 3.6],
    [1, "in²/100ft²", "cm²/m²", 6.4516 / 9.290304],
    [212, "°F", "°C", 100],
    [-40, "°F", "°C", -40],
    [0, "°C", "°F", 32],
    [300, "K", "°F", 80.33],
  ])("%d %s in %s", (value, from, to, expected) => {
    expect(Math.abs(convertUnits(value, from, to) - expected)).toBeLessThanOrEqual(1e-12 * Math.abs(expected));
    expect(Math.abs(convertUnits(expected, to, from) - value)).toBeLessThanOrEqual(
      1e-12 * Math.max(1, Math.abs(value)),
    );
  });
});
