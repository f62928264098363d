import type { ShadowLines } from "./shadow-line";

const ofLine = { ofLine: true } as const;

/** The ordinary line through the logarithms, with its standard errors and limits. */
export function fitLines(list: ShadowLines): void {
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
