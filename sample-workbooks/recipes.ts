import type { Recipe } from "./blocks/book";
import { envelopeWhatIf } from "./envelope-what-if";
import { finalTest, finalTestInchPound } from "./final-test";
import { loggerImport } from "./logger-import";
import { midConstruction } from "./mid-construction";
import { multiUnit } from "./multi-unit";
import { programmeReview } from "./programme-review";
import { testDay } from "./test-day";

/** Every sample workbook, in the order in which a firm meets them. */
export const recipes: readonly Recipe[] = [
  finalTest,
  finalTestInchPound,
  envelopeWhatIf,
  testDay,
  loggerImport,
  midConstruction,
  multiUnit,
  programmeReview,
];
