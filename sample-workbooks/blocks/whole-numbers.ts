/**
 * SUM and AVERAGE leave text out without a word, so that a length pasted as "6.35 m" makes a house smaller. These give #N/A instead. For cells that are typed
 * into: a formula that gives "" counts as text.
 */

/** The sum of what is typed; #N/A where a cell holds anything but a number. */
export function wholeSum(range: string): string {
  return `IF(COUNTA(${range})<>COUNT(${range}),NA(),SUM(${range}))`;
}

/** The mean of what is typed; blank where nothing is, #N/A where a cell holds anything but a number. */
export function wholeMean(range: string): string {
  return `IF(COUNTA(${range})<>COUNT(${range}),NA(),IF(COUNT(${range})=0,"",AVERAGE(${range})))`;
}

/** The text of the first row whose other column is an error, for a cell that names it; #N/A where none is. */
export function firstWithError(texts: string, values: string): string {
  return `INDEX(${texts},MATCH(TRUE,INDEX(ISERROR(${values}),0),0))`;
}
