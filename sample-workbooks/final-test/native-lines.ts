import { profiles, standards } from "../../src/core/index";
import { onSheet } from "../blocks/address";
import { wholeMean } from "../blocks/typed-cells";
import { readingRows, sheetOf } from "./layout";
import type { RunPlaces } from "./run";

/** Rows of one run: title, heads and lines, a gap, heads and readings, a gap. */
export const nativeLineCount = 29;
const readingCount = readingRows.last - readingRows.first + 1;
const blockRows = 1 + 1 + nativeLineCount + 1 + 3 + readingCount + 2;
const firstBlock = 20;

/** Where the parts of one run's block stand, counted in the order of the tabs. */
export function nativeBlock(index: number) {
  const title = firstBlock + index * blockRows;
  const lines = title + 2;
  const readingHeads = lines + nativeLineCount + 3;
  const readings = readingHeads + 1;
  return {
    title,
    lines,
    readingHeads,
    readings,
    last: readings + readingCount - 1,
    end: title + blockRows - 1,
  } as const;
}

/** A cell on the sheet of a run. */
export function onRun({ direction, run }: Pick<RunPlaces, "direction" | "run">): (reference: string) => string {
  return (reference) => onSheet(sheetOf(direction, run), reference);
}

/** A formula: the standard's reference conditions count the viscosity too, as its profile says. */
const countsViscosity = `OR(${standards
  .filter((standard) => profiles[standard].correction.value === "density and viscosity")
  .map((standard) => `TestStandard="${standard}"`)
  .join(",")})`;

/** A formula: the line of native functions is the technique that was chosen. */
export const isOrdinary = 'TestTechnique="ordinary"';

/** Agreement to nine digits. */
export const agreement = "0.000000001";

/** The main line of one run, every step a native formula on the typed cells of its sheet. */
export function nativeLines(run: RunPlaces, index: number): readonly NativeLine[] {
  const list = new NativeLines(run, index);
  addAirLines(list);
  addFitLines(list);
  addResultLines(list);
  return list.lines;
}

/** One step of the main line by native functions. */
interface NativeLine {
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

type Rest = Partial<Pick<NativeLine, "compared" | "digits" | "unit" | "how" | "ofLine">>;

/** The lines of one run while they are listed; each one may call those before it. */
class NativeLines {
  readonly lines: NativeLine[] = [];
  /** Columns of ln Δp and ln q. */
  readonly x: string;
  readonly y: string;
  readonly there: (reference: string) => string;
  private readonly first: number;

  constructor(
    readonly run: RunPlaces,
    index: number,
  ) {
    const block = nativeBlock(index);
    const readings = (letter: string) => `$${letter}$${block.readings}:$${letter}$${block.last}`;
    [this.x, this.y] = [readings("J"), readings("K")];
    this.first = block.lines;
    this.there = onRun(run);
  }

  /** The cell of an earlier line. */
  at(key: string): string {
    const place = this.lines.findIndex((line) => line.key === key);
    if (place < 0) throw new Error(`${key} comes later`);
    return `D${this.first + place}`;
  }

  /** The add-in's figure in the table of the whole test. */
  table(symbol: string, column: "value" | "lower" | "upper" = "value"): string {
    return this.run.wholeTest[column](symbol);
  }

  step(key: string, label: string, shown: string, formula: string, rest: Rest): void {
    this.lines.push({ key, label, shown, formula, digits: 4, unit: "", how: "", ...rest });
  }

  /** Density of the air at the device, and of that in the leaks, once both are listed. */
  densities(): readonly [device: string, leaks: string] {
    const [inside, outside] = [this.at("rho_i"), this.at("rho_e")];
    return this.run.direction === "depressurization" ? [inside, outside] : [outside, inside];
  }
}

/** Densities, the factor of the flow, the baseline. */
function addAirLines(list: NativeLines): void {
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

const ofLine = { ofLine: true } as const;

/** The ordinary line through the logarithms, with its standard errors and limits. */
function addFitLines(list: NativeLines): void {
  const { units } = list.run.form;
  list.step("count", "Readings used", "N", `COUNT(${list.x})`, {
    compared: list.table("count"),
    digits: 0,
    how: "COUNT of the logarithms",
  });
  list.step("n", "Flow exponent", "n", `SLOPE(${list.y},${list.x})`, {
    compared: list.table("n"),
    how: "SLOPE(ln q, ln Δp)",
    ...ofLine,
  });
  list.step("C", "Air flow coefficient", "C_{env}", `EXP(INTERCEPT(${list.y},${list.x}))`, {
    compared: list.table("C"),
    digits: 3,
    unit: units.coefficient,
    how: "EXP(INTERCEPT(ln q, ln Δp))",
    ...ofLine,
  });
  list.step("r2", "Fit of the line", "r²", `RSQ(${list.y},${list.x})`, {
    compared: list.table("r2"),
    digits: 5,
    how: "RSQ",
    ...ofLine,
  });
  list.step("s_n", "Standard error of n", "s_{n}", `STEYX(${list.y},${list.x})/SQRT(DEVSQ(${list.x}))`, {
    compared: list.table("s_n"),
    digits: 5,
    how: "STEYX / √DEVSQ(ln Δp)",
    ...ofLine,
  });
  list.step(
    "s_lnC",
    "Standard error of ln C",
    "s_{lnC}",
    `${list.at("s_n")}*SQRT(SUMSQ(${list.x})/${list.at("count")})`,
    {
      compared: list.table("s_lnC"),
      digits: 5,
      how: "s_{n} · √(SUMSQ(ln Δp) / N)",
      ...ofLine,
    },
  );
  list.step(
    "t",
    "Student’s t, N − 2 degrees of freedom",
    "t",
    `_xlfn.T.INV.2T(1-ConfidenceLevel,${list.at("count")}-2)`,
    {
      compared: list.table("t"),
      how: "T.INV.2T",
      ...ofLine,
    },
  );
  for (const [key, label, sign, column] of [
    ["n_lower", "Flow exponent, lower limit", "-", "lower"],
    ["n_upper", "Flow exponent, upper limit", "+", "upper"],
  ] as const)
    list.step(key, label, "", `${list.at("n")}${sign}${list.at("t")}*${list.at("s_n")}`, {
      compared: list.table("n", column),
      how: "n ∓ t · s_{n}",
      ...ofLine,
    });
  for (const [key, label, sign, column] of [
    ["C_lower", "Air flow coefficient, lower limit", "-", "lower"],
    ["C_upper", "Air flow coefficient, upper limit", "", "upper"],
  ] as const)
    list.step(key, label, "", `${list.at("C")}*EXP(${sign}${list.at("t")}*${list.at("s_lnC")})`, {
      compared: list.table("C", column),
      digits: 3,
      unit: units.coefficient,
      how: "C · e^{∓t·s}",
      ...ofLine,
    });
}

/** ρ0 of ISO 9972: dry air at 20 °C and 101 325 Pa, kg/m³. */
const referenceDensity = "1.2041";

/** Sutherland's formula, up to a factor that cancels. */
const viscosity = (kelvin: string) => `(${kelvin})^1.5/(${kelvin}+110.4)`;

/** From the line to reference conditions and to every result. */
function addResultLines(list: NativeLines): void {
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
    // Without a criterion two different errors would meet, and no program says which one is the result.
    `IF(COUNT(TargetPressure)=0,NA(),${list.at("C_L")}*TargetPressure^${list.at("n")})`,
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
