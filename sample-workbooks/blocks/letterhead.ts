import type { Letterhead } from "./heading";

/** Every page starts with the firm and the house, as the first sheet has them under these names. */
export const letterhead: Letterhead = {
  brand: 'UPPER(Firm)&"   "&LOWER(TradeLine)&IF(Remark="","","   ("&LOWER(Remark)&")")',
  house: 'IF(House="","",House)',
};

/** Firm, house, place, people, instruments and readings are invented; no such house stands anywhere. */

export const firm = "Quince & Plover";

export const trade = "Building physics";
