/** Column letters to a zero-based number: A is 0. */
export function columnOf(letters: string): number {
  let column = 0;
  for (const letter of letters) column = column * 26 + letter.charCodeAt(0) - 64;
  return column - 1;
}

/** Zero-based number to column letters. */
export function lettersOf(column: number): string {
  const rest = Math.floor(column / 26);
  return (rest > 0 ? lettersOf(rest - 1) : "") + String.fromCharCode(65 + (column % 26));
}

export interface Box {
  readonly top: number;
  readonly left: number;
  readonly bottom: number;
  readonly right: number;
}

/** "B4" or "B4:D9" as zero-based, inclusive edges. */
export function boxOf(reference: string): Box {
  const match = /^\$?([A-Z]+)\$?(\d+)(?::\$?([A-Z]+)\$?(\d+))?$/.exec(reference);
  if (!match) throw new Error(`not a cell or a range: ${reference}`);
  const [, left = "", top = "", right = left, bottom = top] = match;
  return { left: columnOf(left), top: Number(top) - 1, right: columnOf(right), bottom: Number(bottom) - 1 };
}

/** Zero-based row and column as "B4". */
export function addressOf(row: number, column: number): string {
  return `${lettersOf(column)}${row + 1}`;
}

/** "B4" as "$B$4", "B4:D9" as "$B$4:$D$9". */
export function absolute(reference: string): string {
  return reference.replace(/\$?([A-Z]+)\$?(\d+)/g, "$$$1$$$2");
}

/** The reference with its sheet, quoted where the name needs it. */
export function onSheet(sheet: string, reference: string): string {
  const quoted = /^[A-Za-z][A-Za-z0-9]*$/.test(sheet) ? sheet : `'${sheet}'`;
  return `${quoted}!${absolute(reference)}`;
}

/** Rows one below the other from a first one on, each by its name. */
export function rowsFrom<Name extends string>(
  first: number,
  ...names: readonly Name[]
): Readonly<Record<Name, number>> {
  return Object.fromEntries(names.map((name, index) => [name, first + index])) as Record<Name, number>;
}
