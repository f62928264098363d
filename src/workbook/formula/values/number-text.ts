import { refuse } from "./refusal";

/**
 * A number as Excel writes it when it joins text (General without a width, 15 significant digits).
 *
 * Refused: numbers so small or so large that Excel's choice between decimals and powers of ten is not documented.
 */
export function numberAsText(value: number): string {
  if (Number.isInteger(value) && Math.abs(value) < 1e15) return String(value === 0 ? 0 : value);
  const size = Math.abs(value);
  const digits = value.toPrecision(15);
  const rounded = Number(digits);
  if (size < 1e-9 && size > 0) return powerOfTenText(rounded);
  if (size < 1e-4) refuse("a number below 0.0001 joined to text: its notation is not certain");
  if (size >= 1e15) refuse("a number of 1E+15 or more joined to text: its notation is not certain");
  const text = String(rounded);
  return text.length <= 19
    ? text
    : refuse("a number with more than 17 decimals joined to text: its notation is not certain");
}

function powerOfTenText(value: number): string {
  const [mantissa = "", exponent = "0"] = value.toExponential().split("e");
  const power = Number(exponent);
  return `${mantissa}E${power < 0 ? "-" : "+"}${String(Math.abs(power)).padStart(2, "0")}`;
}
