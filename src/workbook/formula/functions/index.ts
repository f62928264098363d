import type { FunctionTable } from "../calls/function-entry";
import { aggregates } from "./aggregate";
import { arrayPieces } from "./array-pieces";
import { arrayFunctions } from "./arrays";
import { arithmeticFunctions } from "./arithmetic";
import { cardProperty } from "./card-property";
import { cellFunction } from "./cell-function";
import { choices } from "./choices";
import { conditionalAggregates } from "./conditional";
import { conversion } from "./convert";
import { dates } from "./dates";
import { distributions } from "./distributions";
import { formulaText } from "./formula-text";
import { information } from "./information";
import { lambdaHelpers } from "./lambda-helpers";
import { logic } from "./logic";
import { lookups } from "./lookup";
import { products } from "./products";
import { referenceFunctions } from "./reference-functions";
import { regression } from "./regression";
import { relations } from "./relations";
import { statistics } from "./statistics";
import { subtotals } from "./subtotal";
import { textFormats } from "./text-format";
import { textSearch } from "./text-search";
import { textFunctions } from "./text";
import { textDelimiters } from "./text-delimiters";
import { textParts } from "./text-parts";
import { trigonometry } from "./trigonometry";
import { workingDays } from "./working-days";

/** The allow-list: every ordinary function that is evaluated. What is not here makes its cell "not evaluated". */
export const ordinaryFunctions: FunctionTable = {
  ...arithmeticFunctions,
  ...trigonometry,
  ...aggregates,
  ...conditionalAggregates,
  ...logic,
  ...choices,
  ...information,
  ...formulaText,
  ...statistics,
  ...relations,
  ...regression,
  ...distributions,
  ...subtotals,
  ...lookups,
  ...referenceFunctions,
  ...cellFunction,
  ...cardProperty,
  ...arrayFunctions,
  ...arrayPieces,
  ...lambdaHelpers,
  ...dates,
  ...textFunctions,
  ...textSearch,
  ...textFormats,
  ...conversion,
  ...products,
  ...textDelimiters,
  ...textParts,
  ...workingDays,
};
