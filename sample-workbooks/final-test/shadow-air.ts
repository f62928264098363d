import { wholeMean } from "../blocks/typed-cells";
import type { ShadowLines } from "./shadow-line";

/** Densities, the factor of the flow, the baseline. */
export function airLines(list: ShadowLines): void {
  const { units } = list.run.form;
  const { in: unit } = units;
  const [kelvinIn, kelvinOut] = [units.kelvin(list.there("H7")), units.kelvin(list.there("H8"))];
  const pascal = unit.barometer === 1 ? list.there("H11") : `${list.there("H11")}*${unit.barometer}`;
  const density = (kelvin: string, humidity: string) => {
    const share = `IF(${humidity}="",0.5,${humidity})`;
    const vapour = `${share}*EXP(59.484085-6790.4985/${kelvin}-5.02802*LN(${kelvin}))`;
    return `(${pascal}-0.37802*${vapour})/(287.055*${kelvin})/${unit.density}`;
  };
  const mean = (set: string) => wholeMean(list.there(set));

  list.step("rho_i", "Density of the air indoors", "ρ_{i}", density(kelvinIn, list.there("H9")), {
    compared: list.table("rho_i"),
    digits: units.digits.density,
    unit: units.density,
    how: "(p − 0.37802 · p_{v}) / (287.055 · T)",
  });
  list.step("rho_e", "Density of the air outdoors", "ρ_{e}", density(kelvinOut, list.there("H10")), {
    compared: list.table("rho_e"),
    digits: units.digits.density,
    unit: units.density,
    how: "the same outdoors",
  });
  const [device, leaks] = list.densities();
  list.step(
    "k_q",
    "Factor from the indicated flow to the envelope",
    "k",
    `SQRT(CalibrationDensity/${device})*${device}/${leaks}`,
    {
      compared: list.table("k_q"),
      how: "√(ρ_{cal}/ρ) at the device · balance of mass",
    },
  );
  list.step("dp01", "Baseline before", "Δp_{01}", mean("D16:M16"), {
    compared: list.table("dp01"),
    digits: 2,
    unit: "Pa",
    how: "AVERAGE",
  });
  list.step("dp02", "Baseline after", "Δp_{02}", mean("D17:M17"), {
    compared: list.table("dp02"),
    digits: 2,
    unit: "Pa",
    how: "AVERAGE",
  });
  list.step("dp0", "Baseline of the test", "Δp_{0}", `(${list.at("dp01")}+${list.at("dp02")})/2`, {
    compared: list.table("dp0"),
    digits: 2,
    unit: "Pa",
    how: "mean of the two",
  });
}
