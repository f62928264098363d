import type { RunPlaces } from "./direction";
import { countsViscosity, onRun, shadowBlock } from "./shadow-places";

/** One step of the main line by native functions. */
export interface ShadowLine {
  readonly key: string;
  /** Marked for subscripts and superscripts. */
  readonly label: string;
  readonly shown: string;
  readonly formula: string;
  /** The add-in's figure; absent where it shows none. */
  readonly compared?: string;
  readonly digits: number;
  readonly unit: string;
  /** In words, for a reader. */
  readonly how: string;
  /** It holds for the ordinary technique alone. */
  readonly ofLine?: true;
}

/** ρ0 of ISO 9972: dry air at 20 °C and 101 325 Pa, kg/m³. */
const referenceDensity = "1.2041";

/** Sutherland's formula, up to a factor that cancels. */
const viscosity = (kelvin: string) => `(${kelvin})^1.5/(${kelvin}+110.4)`;

/** The main line of one run, every step a native formula on the typed cells of its sheet. */
export function shadowLines(run: RunPlaces, index: number): readonly ShadowLine[] {
  const { direction, wholeTest, form } = run;
  const { units } = form;
  const { in: unit } = units;
  const there = onRun(run);
  const block = shadowBlock(index);
  const readings = (letter: string) => `$${letter}$${block.readings}:$${letter}$${block.last}`;
  const [x, y] = [readings("J"), readings("K")];
  const lines: ShadowLine[] = [];
  const at = (key: string) => {
    const place = lines.findIndex((line) => line.key === key);
    if (place < 0) throw new Error(`${key} comes later`);
    return `D${block.lines + place}`;
  };
  const add = (line: ShadowLine) => lines.push(line);
  const out = direction === "depressurization";
  const [kelvinIn, kelvinOut] = [units.kelvin(there("H7")), units.kelvin(there("H8"))];
  const pascal = unit.barometer === 1 ? there("H11") : `${there("H11")}*${unit.barometer}`;
  const density = (kelvin: string, humidity: string) => {
    const share = `IF(${humidity}="",0.5,${humidity})`;
    const vapour = `${share}*EXP(59.484085-6790.4985/${kelvin}-5.02802*LN(${kelvin}))`;
    return `(${pascal}-0.37802*${vapour})/(287.055*${kelvin})/${unit.density}`;
  };
  const table = (symbol: string, column: "value" | "lower" | "upper" = "value") => wholeTest[column](symbol);
  const step = (key: string, label: string, shown: string, formula: string, rest: Partial<ShadowLine>) =>
    add({ key, label, shown, formula, digits: 4, unit: "", how: "", ...rest });
  const mean = (set: string) => `AVERAGE(${there(set)})`;

  step("rho_i", "Density of the air indoors", "ρ_{i}", density(kelvinIn, there("H9")), {
    compared: table("rho_i"),
    digits: units.digits.density,
    unit: units.density,
    how: "(p − 0.37802 · p_{v}) / (287.055 · T)",
  });
  step("rho_e", "Density of the air outdoors", "ρ_{e}", density(kelvinOut, there("H10")), {
    compared: table("rho_e"),
    digits: units.digits.density,
    unit: units.density,
    how: "the same outdoors",
  });
  const [device, leaks] = out ? [at("rho_i"), at("rho_e")] : [at("rho_e"), at("rho_i")];
  step(
    "k_q",
    "Factor from the indicated flow to the envelope",
    "k",
    `SQRT(CalibrationDensity/${device})*${device}/${leaks}`,
    {
      compared: table("k_q"),
      how: "√(ρ_{cal}/ρ) at the device · balance of mass",
    },
  );
  step("dp01", "Baseline before", "Δp_{01}", mean("D16:M16"), {
    compared: table("dp01"),
    digits: 2,
    unit: "Pa",
    how: "AVERAGE",
  });
  step("dp02", "Baseline after", "Δp_{02}", mean("D17:M17"), {
    compared: table("dp02"),
    digits: 2,
    unit: "Pa",
    how: "AVERAGE",
  });
  step("dp0", "Baseline of the test", "Δp_{0}", `(${at("dp01")}+${at("dp02")})/2`, {
    compared: table("dp0"),
    digits: 2,
    unit: "Pa",
    how: "mean of the two",
  });
  const ofLine = { ofLine: true } as const;
  step("count", "Readings used", "N", `COUNT(${x})`, {
    compared: table("count"),
    digits: 0,
    how: "COUNT of the logarithms",
  });
  step("n", "Flow exponent", "n", `SLOPE(${y},${x})`, { compared: table("n"), how: "SLOPE(ln q, ln Δp)", ...ofLine });
  step("C", "Air flow coefficient", "C_{env}", `EXP(INTERCEPT(${y},${x}))`, {
    compared: table("C"),
    digits: 3,
    unit: units.coefficient,
    how: "EXP(INTERCEPT(ln q, ln Δp))",
    ...ofLine,
  });
  step("r2", "Fit of the line", "r²", `RSQ(${y},${x})`, { compared: table("r2"), digits: 5, how: "RSQ", ...ofLine });
  step("s_n", "Standard error of n", "s_{n}", `STEYX(${y},${x})/SQRT(DEVSQ(${x}))`, {
    compared: table("s_n"),
    digits: 5,
    how: "STEYX / √DEVSQ(ln Δp)",
    ...ofLine,
  });
  step("s_lnC", "Standard error of ln C", "s_{lnC}", `${at("s_n")}*SQRT(SUMSQ(${x})/${at("count")})`, {
    compared: table("s_lnC"),
    digits: 5,
    how: "s_{n} · √(SUMSQ(ln Δp) / N)",
    ...ofLine,
  });
  step("t", "Student’s t, N − 2 degrees of freedom", "t", `_xlfn.T.INV.2T(1-ConfidenceLevel,${at("count")}-2)`, {
    compared: table("t"),
    how: "T.INV.2T",
    ...ofLine,
  });
  for (const [key, label, sign, column] of [
    ["n_lower", "Flow exponent, lower limit", "-", "lower"],
    ["n_upper", "Flow exponent, upper limit", "+", "upper"],
  ] as const)
    step(key, label, "", `${at("n")}${sign}${at("t")}*${at("s_n")}`, {
      compared: table("n", column),
      how: "n ∓ t · s_{n}",
      ...ofLine,
    });
  for (const [key, label, sign, column] of [
    ["C_lower", "Air flow coefficient, lower limit", "-", "lower"],
    ["C_upper", "Air flow coefficient, upper limit", "", "upper"],
  ] as const)
    step(key, label, "", `${at("C")}*EXP(${sign}${at("t")}*${at("s_lnC")})`, {
      compared: table("C", column),
      digits: 3,
      unit: units.coefficient,
      how: "C · e^{∓t·s}",
      ...ofLine,
    });
  step(
    "density",
    "Density of the air in the leaks, by that of reference",
    "ρ/ρ_{0}",
    `${leaks}*${unit.density}/${referenceDensity}`,
    {
      how: `air from ${out ? "outdoors" : "indoors"}; ρ_{0} = 1.2041 kg/m³`,
    },
  );
  const leakKelvin = out ? kelvinOut : kelvinIn;
  step(
    "viscosity",
    "Its viscosity, where the standard counts it",
    "μ/μ_{0}",
    `IF(${countsViscosity},${viscosity(leakKelvin)}/(${viscosity("293.15")}),1)`,
    {
      how: "Sutherland; 1 by ISO 9972",
    },
  );
  step(
    "C_L",
    "Air leakage coefficient, reference conditions",
    "C_{L}",
    `${at("C")}*${at("density")}^(1-${at("n")})*${at("viscosity")}^(2*${at("n")}-1)`,
    {
      compared: table("C_L"),
      digits: 3,
      unit: units.coefficient,
      how: "C · (ρ/ρ_{0})^{1−n} · (μ/μ_{0})^{2n−1}",
      ...ofLine,
    },
  );
  step("q50", "Air leakage rate at 50 Pa", "q_{50}", `${at("C_L")}*50^${at("n")}`, {
    compared: table("q50"),
    digits: 1,
    unit: units.flow,
    how: "C_{L} · 50^{n}",
    ...ofLine,
  });
  const away = `LN(50*${at("viscosity")}^2/${at("density")})-AVERAGE(${x})`;
  const ofFlow = `STEYX(${y},${x})*SQRT(1/${at("count")}+(${away})^2/DEVSQ(${x}))`;
  for (const [key, label, sign, column] of [
    ["q50_lower", "Air leakage rate, lower limit", "-", "lower"],
    ["q50_upper", "Air leakage rate, upper limit", "", "upper"],
  ] as const)
    step(key, label, "", `${at("q50")}*EXP(${sign}${at("t")}*${ofFlow})`, {
      compared: table("q50", column),
      digits: 1,
      unit: units.flow,
      how: "q_{50} · e^{∓t·s}, s at the shifted pressure",
      ...ofLine,
    });
  const hours = unit.flow / unit.volume;
  step(
    "n50",
    "Air change rate at 50 Pa",
    "n_{50}",
    `${at("q50")}${hours === 1 ? "" : `*${Math.round(hours)}`}/InternalVolume`,
    {
      compared: table("n50"),
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
    step(key, label, shown, `${at("q50")}/${area}`, {
      compared: table(key),
      unit: units.perArea,
      how: "q_{50} / A",
      ...ofLine,
    });
  step("q_pr", "Air leakage rate at the criterion’s pressure", "q_{pr}", `${at("C_L")}*TargetPressure^${at("n")}`, {
    compared: table("q_pr"),
    digits: 1,
    unit: units.flow,
    how: "C_{L} · p_{r}^{n}",
    ...ofLine,
  });
  const areaAt = (pressure: number, coefficient: number) =>
    `${at("C_L")}*${pressure}^${at("n")}*${unit.flow}/3600/${coefficient}*SQRT(${referenceDensity}/2/${pressure})*10000/${unit.leakageArea}`;
  step("ELA4", "Effective leakage area at 4 Pa, C_{d} 1", "ELA_{4}", areaAt(4, 1), {
    compared: table("ELA4"),
    digits: 2,
    unit: units.leakageArea,
    how: "q_{4} / 3600 · √(ρ_{0}/2) / √4",
    ...ofLine,
  });
  step("EqLA10", "Equivalent leakage area at 10 Pa, C_{d} 0.611", "EqLA_{10}", areaAt(10, 0.611), {
    compared: table("EqLA10"),
    digits: 2,
    unit: units.leakageArea,
    how: "q_{10} / 3600 / 0.611 · √(ρ_{0}/2) / √10",
    ...ofLine,
  });
  return lines;
}
