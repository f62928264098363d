import { ErrorValue } from "../../model";
import type { Caller } from "../caller";
import { toInteger } from "../coerce";
import { refuse } from "../refusal";
import { numberOfText } from "../text-number";
import { errors, Lambda, Matrix, Omitted, Reference, type Scalar, type Value } from "../value";
import { sizeOf, visitValues } from "./gather";

/**
 * Arguments as the former analysis add-in took them (GCD, LCM, QUOTIENT, MULTINOMIAL): logical values are #VALUE! even in
 * ranges, numeric text counts, blanks are 0 or left out; negative numbers are #NUM! where integers are wanted.
 */
export function integersOf(
  given: readonly Value[],
  options: { readonly truncate: boolean; readonly caller?: Caller },
): number[] | ErrorValue {
  const numbers: number[] = [];
  const add = (value: Exclude<Scalar, ErrorValue>): ErrorValue | undefined => {
    if (typeof value === "boolean") return errors.value;
    const number = value === null ? 0 : typeof value === "string" ? numberOfText(value) : value;
    if (number === undefined) return errors.value;
    if (options.truncate && number < 0) return errors.number;
    numbers.push(options.truncate ? toInteger(number) : number);
    return undefined;
  };
  for (const value of given) {
    let problem: ErrorValue | undefined;
    if (value instanceof Omitted) refuse("an empty place among the arguments");
    if (value === null) problem = add(null);
    else if (value instanceof Lambda) problem = errors.value;
    else if (value instanceof ErrorValue) problem = value;
    else if (value instanceof Reference || value instanceof Matrix) {
      const before = numbers.length;
      problem = options.caller && visitValues(value, options.caller, add);
      const size = sizeOf(value);
      if (!problem && size && numbers.length - before < size.rows * size.columns) refuse("a blank among the arguments");
    }
    else problem = add(value);
    if (problem) return problem;
  }
  return numbers;
}
