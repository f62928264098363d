/** An attribute's value in an element's text; empty where it is absent. */
export function attribute(element: string, name: string): string {
  return new RegExp(`\\b${name}="([^"]*)"`).exec(element)?.[1] ?? "";
}

/** Whether a range such as "B2:D9" holds an address. */
export function holds(range: string, address: string): boolean {
  const [from = "", to = from] = range.split(":");
  const [a, b, c] = [from, to, address].map(placeOf) as [Place, Place, Place];
  return a.row <= c.row && c.row <= b.row && a.column <= c.column && c.column <= b.column;
}

/** The print area of a sheet, by the sheet's place among the tabs. */
export function printAreaOf(workbookPart: string, sheet: number): string {
  const name = new RegExp(`<definedName name="_xlnm.Print_Area" localSheetId="${sheet}">([^<]*)<`);
  return name.exec(workbookPart)?.[1] ?? "";
}

interface Place {
  readonly row: number;
  readonly column: number;
}

/** Row and column of an address, counted from 0. */
export function placeOf(address: string): Place {
  const [, letters = "", digits = ""] = /^([A-Z]+)(\d+)$/.exec(address) ?? [];
  const column = [...letters].reduce((sum, letter) => sum * 26 + letter.charCodeAt(0) - 64, 0);
  return { row: Number(digits) - 1, column: column - 1 };
}
