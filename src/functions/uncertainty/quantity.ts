import type { Output, TestResult } from "../../core/index";
import type { BudgetQuantity } from "../settings/labels";
import type { Settings } from "../settings/settings";
import { fromMethod, perPressure, type UnitSystem } from "../cells/units";

/** A result as a budget sees it. */
export interface Quantity {
  /** In the user's unit; absent where an input is missing. */
  readonly value: number | undefined;
  readonly unit: string;
  readonly output: Output;
  /** What the flow is divided by; its uncertainty is the setting "… uncertainty". */
  readonly size?: "volume" | "envelope area" | "floor area";
}

/** The result that a symbol of TESTRESULT names. */
export function quantityOf(symbol: BudgetQuantity, result: TestResult, settings: Settings): Quantity {
  const { system } = settings;
  const reference = settings["reference pressure"];
  const other = reference === undefined ? undefined : result.at(reference);
  const { at50, leakageAreas } = result;
  const measured = (limits: { value: number } | undefined, measures: keyof UnitSystem, output: Output): Quantity => ({
    value: fromMethod(limits?.value, measures, system),
    unit: system[measures],
    output,
  });
  const flow = (pressure: number) => ({ of: "flow", pressure }) as const;
  const perSize = (
    limits: { value: number } | undefined,
    size: NonNullable<Quantity["size"]>,
    pressure = 50,
  ): Quantity => {
    const output = { of: "flow", pressure, perSize: true } as const;
    return size === "volume"
      ? { value: limits?.value, unit: "1/h", output, size }
      : { ...measured(limits, "permeability", output), size };
  };
  const coefficient = (value: { value: number }, output: Output): Quantity => ({
    ...measured(value, "flow", output),
    unit: perPressure(system.flow),
  });
  switch (symbol) {
    case "n":
      return { value: result.exponent.value, unit: "–", output: { of: "exponent" } };
    case "C":
      return coefficient(result.coefficient, { of: "coefficient" });
    case "C_L":
      return coefficient(result.coefficientAtReference, { ...flow(1), ofLine: true });
    case "q50":
      return measured(at50.flow, "flow", flow(50));
    case "n50":
      return perSize(at50.airChangeRate, "volume");
    case "qE50":
      return perSize(at50.perEnvelopeArea, "envelope area");
    case "qF50":
      return perSize(at50.perFloorArea, "floor area");
    case "q_pr":
      return measured(other?.flow, "flow", flow(reference ?? 50));
    case "n_pr":
      return perSize(other?.airChangeRate, "volume", reference);
    case "qE_pr":
      return perSize(other?.perEnvelopeArea, "envelope area", reference);
    case "qF_pr":
      return perSize(other?.perFloorArea, "floor area", reference);
    case "ELA4":
      return measured(leakageAreas["effective 4 Pa"], "leakageArea", flow(4));
    case "AL10":
      return measured(leakageAreas["ISO 9972 10 Pa"], "leakageArea", flow(10));
    case "EqLA10":
      return measured(leakageAreas["equivalent 10 Pa"], "leakageArea", flow(10));
  }
}
