import type { Recipe } from "./blocks/book";
import { envelopeWhatIf } from "./envelope-what-if";
import { finalTest } from "./final-test";

/** Every sample workbook, in the order in which a firm meets them. */
export const recipes: readonly Recipe[] = [finalTest, envelopeWhatIf];
