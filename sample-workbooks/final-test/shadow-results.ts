import type { ShadowLines } from "./shadow-line";
import { countsViscosity } from "./shadow-places";

const ofLine = { ofLine: true } as const;

/** ρ0 of ISO 9972: dry air at 20 °C and 101 325 Pa, kg/m³. */
const referenceDensity = "1.2041";

/** Sutherland's formula, up to a factor that cancels. */
const viscosity = (kelvin: string) => `(${kelvin})^1.5/(${kelvin}+110.4)`;

/** From the line to reference conditions and to every result. */
export function resultLines(list: ShadowLines): void {
  const { form, direction } = list.run;
  const { units } = form;
  const { in: unit } = units;
  const out = direction === "depressurization";
  const leaks = list.densities()[1];
  list.step(
    "density",
    "Density of the air in the leaks, by that of reference",
    "ρ/ρ_{0}",
    `${leaks}*${unit.density}/${referenceDensity}`,
    {
      how: `air from ${out ? "outdoors" : "indoors"}; ρ_{0} = 1.2041 kg/m³`,
    },
  );
  const leakKelvin = units.kelvin(list.there(out ? "H8" : "H7"));
  list.step(
    "viscosity",
    "Its viscosity, where the standard counts it",
    "μ/μ_{0}",
    `IF(${countsViscosity},${viscosity(leakKelvin)}/(${viscosity("293.15")}),1)`,
    {
      how: "Sutherland; 1 by ISO 9972",
    },
  );
  list.step(
    "C_L",
    "Air leakage coefficient, reference conditions",
    "C_{L}",
    `${list.at("C")}*${list.at("density")}^(1-${list.at("n")})*${list.at("viscosity")}^(2*${list.at("n")}-1)`,
    {
      compared: list.table("C_L"),
      digits: 3,
      unit: units.coefficient,
      how: "C · (ρ/ρ_{0})^{1−n} · (μ/μ_{0})^{2n−1}",
      ...ofLine,
    },
  );
  list.step("q50", "Air leakage rate at 50 Pa", "q_{50}", `${list.at("C_L")}*50^${list.at("n")}`, {
    compared: list.table("q50"),
    digits: 1,
    unit: units.flow,
    how: "C_{L} · 50^{n}",
    ...ofLine,
  });
  const away = `LN(50*${list.at("viscosity")}^2/${list.at("density")})-AVERAGE(${list.x})`;
  const ofFlow = `STEYX(${list.y},${list.x})*SQRT(1/${list.at("count")}+(${away})^2/DEVSQ(${list.x}))`;
  for (const [key, label, sign, column] of [
    ["q50_lower", "Air leakage rate, lower limit", "-", "lower"],
    ["q50_upper", "Air leakage rate, upper limit", "", "upper"],
  ] as const)
    list.step(key, label, "", `${list.at("q50")}*EXP(${sign}${list.at("t")}*${ofFlow})`, {
      compared: list.table("q50", column),
      digits: 1,
      unit: units.flow,
      how: "q_{50} · e^{∓t·s}, s at the shifted pressure",
      ...ofLine,
    });
  const hours = unit.flow / unit.volume;
  list.step(
    "n50",
    "Air change rate at 50 Pa",
    "n_{50}",
    `${list.at("q50")}${hours === 1 ? "" : `*${Math.round(hours)}`}/InternalVolume`,
    {
      compared: list.table("n50"),
      digits: 4,
      unit: "1/h",
      how: "q_{50} / V",
      ...ofLine,
    },
  );
  for (const [key, label, shown, area] of [
    ["qE50", "Specific leakage rate, envelope", "q_{E50}", "EnvelopeArea"],
    ["qF50", "Specific leakage rate, floor", "q_{F50}", "FloorArea"],
  ] as const)
    list.step(key, label, shown, `${list.at("q50")}/${area}`, {
      compared: list.table(key),
      unit: units.perArea,
      how: "q_{50} / A",
      ...ofLine,
    });
  list.step(
    "q_pr",
    "Air leakage rate at the criterion’s pressure",
    "q_{pr}",
    `${list.at("C_L")}*TargetPressure^${list.at("n")}`,
    {
      compared: list.table("q_pr"),
      digits: 1,
      unit: units.flow,
      how: "C_{L} · p_{r}^{n}",
      ...ofLine,
    },
  );
  const areaAt = (pressure: number, coefficient: number) =>
    `${list.at("C_L")}*${pressure}^${list.at("n")}*${unit.flow}/3600/${coefficient}*SQRT(${referenceDensity}/2/${pressure})*10000/${unit.leakageArea}`;
  list.step("ELA4", "Effective leakage area at 4 Pa, C_{d} 1", "ELA_{4}", areaAt(4, 1), {
    compared: list.table("ELA4"),
    digits: 2,
    unit: units.leakageArea,
    how: "q_{4} / 3600 · √(ρ_{0}/2) / √4",
    ...ofLine,
  });
  list.step("EqLA10", "Equivalent leakage area at 10 Pa, C_{d} 0.611", "EqLA_{10}", areaAt(10, 0.611), {
    compared: list.table("EqLA10"),
    digits: 2,
    unit: units.leakageArea,
    how: "q_{10} / 3600 / 0.611 · √(ρ_{0}/2) / √10",
    ...ofLine,
  });
}
