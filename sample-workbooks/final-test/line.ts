import { call, quoted } from "../blocks/add-in";
import { onSheet } from "../blocks/address";
import { columnHeads, section } from "../blocks/heading";
import { palette } from "../blocks/palette";
import type { Sheet } from "../blocks/sheet";
import { decimals, fromAddIn, looks, native, style } from "../blocks/style";
import type { Conditions } from "./conditions";
import { sheets } from "./places";
import type { Direction } from "./readings";
import { columns } from "./steps";
import { tableHeads, textLook, valueFormats } from "./tables";
import type { WholeTestPlaces } from "./whole-test";

const fit = { first: 7, last: 15 } as const;
const steps = { heads: 18, first: 19 } as const;
const symbols = ["C", "n", "r2", "N", "dof", "t", "s_n", "s_lnC", "q50"];

/** Where other sheets find the step-by-step results. */
export interface LinePlaces {
  /** The step-by-step value of a quantity by its symbol. */
  readonly value: (symbol: string) => string;
  /** The largest relative difference between the steps and the whole test, and the word for it. */
  readonly largestDifference: string;
  readonly agreement: string;
}

interface Step {
  readonly symbol: string;
  readonly label: string;
  readonly shown: string;
  readonly formula: string;
  readonly unit: string;
  readonly how: string;
  readonly digits: number;
}

/** The fitted line, then one native formula a row from the line to the results, each compared with the whole test in one call. */
export function lineSections(sheet: Sheet, direction: Direction, conditions: Conditions, wholeTest: WholeTestPlaces): LinePlaces {
  section(sheet, 5, ["V", "AB"], "Air leakage line, q = C · Δpⁿ, fitted to the logarithms");
  columnHeads(sheet, 6, "V", tableHeads);
  sheet.addIn(
    `V${fit.first}:AB${fit.last}`,
    call("LEAKAGEFIT", columns.induced, columns.flow, quoted("ordinary"), "0.95", columns.include),
    (row, column) => (column >= 2 && column <= 4 ? fromAddIn(valueFormats[symbols[row] ?? ""]) : textLook(column)),
  );
  return stepTable(sheet, stepsOf(direction, conditions), wholeTest, sheets[direction]);
}

function stepsOf(direction: Direction, conditions: Conditions): readonly Step[] {
  const inFit = (symbol: string) => `INDEX($X$${fit.first}:$X$${fit.last},MATCH(${quoted(symbol)},$W$${fit.first}:$W$${fit.last},0))`;
  const leaking = direction === "depressurization" ? "outdoors" : "indoors";
  const leakDensity = direction === "depressurization" ? conditions.outdoorDensity : conditions.indoorDensity;
  const at = (symbol: string) => `X${steps.first + order.indexOf(symbol)}`;
  const flowAt = (pressure: string) => `${at("C_L")}*${pressure}^${at("n")}`;
  const area = (pressure: number) => `${flowAt(String(pressure))}/3600*SQRT(${at("rho_0")}/2/${pressure})*10000`;
  const order = ["C", "n", "rho_leak", "rho_0", "C_L", "q50", "n50", "qE50", "qF50", "q_pr", "ELA4", "AL10"];
  return [
    { symbol: "C", label: "Air flow coefficient at the test’s conditions", shown: "C", formula: inFit("C"), unit: "m³/(h·Pa^{n})", how: "from the line above", digits: 3 },
    { symbol: "n", label: "Flow exponent", shown: "n", formula: inFit("n"), unit: "", how: "from the line above", digits: 4 },
    { symbol: "rho_leak", label: `Density of the air in the leaks: from ${leaking}`, shown: "ρ", formula: leakDensity, unit: "kg/m³", how: "page before", digits: 4 },
    { symbol: "rho_0", label: "Density at reference conditions, 20 °C, dry", shown: "ρ_{0}", formula: referenceDensity, unit: "kg/m³", how: "101 325 / (287.055 · 293.15)", digits: 4 },
    { symbol: "C_L", label: "Air leakage coefficient, reference conditions", shown: "C_{L}", formula: `${at("C")}*(${at("rho_leak")}/${at("rho_0")})^(1-${at("n")})`, unit: "m³/(h·Pa^{n})", how: "C · (ρ/ρ_{0})^{1−n}", digits: 3 },
    { symbol: "q50", label: "Air leakage rate at 50 Pa", shown: "q_{50}", formula: flowAt("50"), unit: "m³/h", how: "C_{L} · 50^{n}", digits: 1 },
    { symbol: "n50", label: "Air change rate at 50 Pa", shown: "n_{50}", formula: `${at("q50")}/InternalVolume`, unit: "1/h", how: "q_{50} / V", digits: 3 },
    { symbol: "qE50", label: "Specific leakage rate, envelope", shown: "q_{E50}", formula: `${at("q50")}/EnvelopeArea`, unit: "m³/(h·m²)", how: "q_{50} / A_{E}", digits: 3 },
    { symbol: "qF50", label: "Specific leakage rate, floor", shown: "q_{F50}", formula: `${at("q50")}/FloorArea`, unit: "m³/(h·m²)", how: "q_{50} / A_{F}", digits: 3 },
    { symbol: "q_pr", label: "Air leakage rate at the criterion’s pressure", shown: "q_{pr}", formula: flowAt("TargetPressure"), unit: "m³/h", how: "C_{L} · p_{r}^{n}", digits: 1 },
    { symbol: "ELA4", label: "Effective leakage area, 4 Pa, C_{d} 1", shown: "ELA_{4}", formula: area(4), unit: "cm²", how: "q_{4} / 3600 · √(ρ_{0}/2) / √4", digits: 1 },
    { symbol: "AL10", label: "Leakage area, 10 Pa, C_{d} 1", shown: "A_{L10}", formula: area(10), unit: "cm²", how: "q_{10} / 3600 · √(ρ_{0}/2) / √10", digits: 1 },
  ];
}

/** Dry air at 20 °C and 101 325 Pa. */
const referenceDensity = "101325/(287.055*293.15)";

function stepTable(sheet: Sheet, list: readonly Step[], wholeTest: WholeTestPlaces, name: string): LinePlaces {
  section(sheet, steps.heads - 1, ["V", "AB"], "From the line to the result, and the same from the whole test");
  const heads = ["<what it is", "<symbol", "step by step", "whole test", "difference, %", "<<unit", "<<how"];
  columnHeads(sheet, steps.heads, "V", heads);
  list.forEach(({ symbol, label, shown, formula, unit, how, digits }, index) => {
    const row = steps.first + index;
    sheet.rich(`V${row}`, label, looks.label).rich(`W${row}`, shown, looks.label);
    sheet.formula(`X${row}`, formula, native(decimals(digits)));
    sheet.rich(`AA${row}`, unit, looks.unit).rich(`AB${row}`, how, looks.unit);
    sheet.paint(`V${row}:AB${row}`, looks.label);
    if (symbol === "rho_0") return;
    sheet.formula(`Y${row}`, wholeTest.value(symbol), native(decimals(digits)));
    sheet.formula(`Z${row}`, `IF(COUNT(X${row}:Y${row})<2,"",100*(X${row}/Y${row}-1))`, native('0.000000;"−"0.000000'));
  });
  const last = steps.first + list.length - 1;
  const [difference, verdict] = [last + 1, last + 2];
  const bold = style({ bold: true, top: palette.petrol, align: "right" });
  sheet.put(`V${difference}`, "Largest difference, %", style({ align: "left" }, bold)).paint(`W${difference}:AB${difference}`, bold);
  sheet.formula(`Z${difference}`, `MAX(MAX(Z${steps.first}:Z${last}),-MIN(Z${steps.first}:Z${last}))`, style({ format: "0.000000" }, bold));
  sheet.put(`V${verdict}`, "Step by step and whole test", looks.strong).paint(`W${verdict}:AB${verdict}`, looks.label);
  const compared = `COUNT(Z${steps.first}:Z${last})<${list.length - 1}`;
  sheet.formula(`Z${verdict}`, `IF(${compared},"incomplete",IF(Z${difference}<=0.000001,"agree","differ"))`, style({ bold: true }, native()));
  return {
    value: (symbol) => onSheet(name, `X${steps.first + list.findIndex((step) => step.symbol === symbol)}`),
    largestDifference: onSheet(name, `Z${difference}`),
    agreement: onSheet(name, `Z${verdict}`),
  };
}
