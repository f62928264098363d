import type { FunctionTable } from "../calls/function-entry";
import { aggregates } from "./aggregate";
import { arrayFunctions, arrayPieces } from "./arrays";
import { arithmeticFunctions } from "./arithmetic";
import { cardProperty, cellFunction, formulaText, information } from "./information";
import { choices, logic } from "./logic";
import { conditionalAggregates } from "./conditional";
import { conversion } from "./convert";
import { databaseFunctions } from "./database";
import { dates } from "./dates";
import { determinants } from "./determinants";
import { distributions } from "./distributions";
import { finance } from "./finance";
import { lambdaHelpers } from "./lambda-helpers";
import { lookups } from "./lookup";
import { numerals } from "./numerals";
import { products } from "./products";
import { referenceFunctions } from "./reference-functions";
import { regression } from "./regression";
import { relations } from "./relations";
import { statistics } from "./statistics";
import { subtotals } from "./subtotal";
import { textFormats } from "./text-format";
import { textSearch } from "./text-search";
import { textFunctions, textParts } from "./text";
import { textDelimiters } from "./text-delimiters";
import { calendar } from "./calendar";
import { trigonometry } from "./trigonometry";
import { workingDays } from "./working-days";

/** The allow-list: every built-in function that is evaluated. Any other makes its cell "not evaluated". */
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
  ...calendar,
  ...finance,
  ...databaseFunctions,
  ...determinants,
  ...numerals,
};
