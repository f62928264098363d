import type { FunctionTable } from "../function-entry";
import { aggregates } from "./aggregate";
import { arithmeticFunctions } from "./arithmetic";
import { conditionalAggregates } from "./conditional";
import { dates } from "./dates";
import { information } from "./information";
import { logic } from "./logic";
import { textFunctions } from "./text";
import { trigonometry } from "./trigonometry";

/** The allow-list: every ordinary function that is evaluated. What is not here makes its cell "not evaluated". */
export const ordinaryFunctions: FunctionTable = {
  ...arithmeticFunctions,
  ...trigonometry,
  ...aggregates,
  ...conditionalAggregates,
  ...logic,
  ...information,
  ...dates,
  ...textFunctions,
};
