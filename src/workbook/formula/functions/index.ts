import type { FunctionTable } from "../function-entry";
import { aggregates } from "./aggregate";
import { arrayFunctions } from "./arrays";
import { arithmeticFunctions } from "./arithmetic";
import { conditionalAggregates } from "./conditional";
import { conversion } from "./convert";
import { dates } from "./dates";
import { distributions } from "./distributions";
import { information } from "./information";
import { lambdaHelpers } from "./lambda-helpers";
import { logic } from "./logic";
import { lookups } from "./lookup";
import { referenceFunctions } from "./reference-functions";
import { regression } from "./regression";
import { statistics } from "./statistics";
import { subtotals } from "./subtotal";
import { textFormats } from "./text-format";
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
  ...statistics,
  ...regression,
  ...distributions,
  ...subtotals,
  ...lookups,
  ...referenceFunctions,
  ...arrayFunctions,
  ...lambdaHelpers,
  ...dates,
  ...textFunctions,
  ...textFormats,
  ...conversion,
};
