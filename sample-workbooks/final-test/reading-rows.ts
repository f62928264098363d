/** Rows of the readings: up to twelve. */
export const readingRows = { first: 24, last: 35 } as const;
