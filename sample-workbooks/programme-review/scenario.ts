/** Programme, firms, houses and readings are invented; no such house stands anywhere. */

export const remark = "Invented programme, houses and readings";
export const footer = "Review of a programme’s airtightness tests";

export const programme = {
  name: "Isle of Ought low-energy homes, round 3",
  sponsor: "Ought Housing Fund",
  reviewer: "Tobiah Marl",
  round: "November 2026",
} as const;

export const testers = [
  "Quince & Plover",
  "Windle and Daughters",
  "Brackwater Building Test",
  "Halyard Surveys",
  "Office of Ottoline Crake",
  "Three Gables Testing",
  "Fenland Airmen",
  "Moss & Mortar",
] as const;

export const houseCount = 500;
