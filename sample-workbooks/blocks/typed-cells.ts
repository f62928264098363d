/**
 * Names that a user typed, compared as they stand. COUNTIF would read one such as "2A" or "9h" as a time or a number, by the settings of the computer.
 */

/** How many cells hold a name. */
export function countOf(range: string, name: string): string {
  return `SUMPRODUCT((${range}=${name})*1)`;
}

/** How many rows hold a name in one column and another in a second. */
export function countOfBoth(first: readonly [string, string], second: readonly [string, string]): string {
  const [one, two] = [first, second].map(([range, name]) => `(${range}=${name})`);
  return `SUMPRODUCT(${one}*${two})`;
}

/** How many cells repeat a name that stands further up; the range begins in the row given. */
export function repeatsIn(range: string, first: number): string {
  return `SUMPRODUCT((${range}<>"")*(MATCH(${range}&"",${range}&"",0)<>ROW(${range})-${first - 1}))`;
}

/** How many cells hold a name that is not on a list. */
export function notOn(list: string, names: string): string {
  return `SUMPRODUCT((${names}<>"")*ISNA(MATCH(${names}&"",${list}&"",0)))`;
}

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
