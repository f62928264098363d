/** Digits in groups of three, set apart by narrow blanks where there are five or more. */
function grouped(digits: string): string {
  const [whole = "", rest] = digits.split(".");
  const groups = whole.replace("-", "").length > 4 ? whole.replace(/\B(?=(\d{3})+$)/g, "\u2009") : whole;
  return rest === undefined ? groups : `${groups}.${rest}`;
}

/** A number with a true minus sign, to so many significant digits, whole digits never lost; very large and very small ones as powers of ten. */
export function significant(value: number, digits: number): string {
  if (value === 0) return "0";
  const power = Math.floor(Math.log10(Math.abs(value)));
  if (power >= 9 || power < -4) {
    const mantissa = value / 10 ** power;
    return `${mantissa.toFixed(digits - 1)}·10^${power}`.replaceAll("-", "−");
  }
  return grouped(value.toFixed(Math.max(0, digits - 1 - power))).replace("-", "−");
}

/** A number with fixed decimals and a true minus sign. */
export function fixed(value: number, decimals: number): string {
  return value.toFixed(decimals).replace("-", "−");
}

/** The number at a tick as it is, without trailing noughts or binary noise. */
export function tickText(value: number): string {
  const power = Math.floor(Math.log10(value));
  if (power >= 9 || power < -4) return significant(value, 1);
  return grouped(String(Number(value.toPrecision(6))));
}
