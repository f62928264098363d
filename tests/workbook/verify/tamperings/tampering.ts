import type { FindingKind } from "../../../../src/workbook/verify/finding";
import type { Spot, Tampered } from "../tampered";

/** One thing that a careless or a dishonest hand does to a workbook, and what the review must say of it. */
export interface Tampering {
  readonly what: string;
  readonly kind: FindingKind;
  /** Does it and tells where: the address that the finding must name, or a pattern of it. */
  readonly plant: (workbook: Tampered) => Spot | RegExp;
  /** Stored results stay as they are. */
  readonly keepsOldResults?: true;
}
