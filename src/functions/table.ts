import type { Limits } from "../core/index";
import { finite } from "./finite";

/** A row of a result table. `what` is for people, `symbol` is the key that never changes, value and limits may be blank. */
export interface TableRow {
  readonly what: string;
  readonly symbol: string;
  readonly value: number | string | Limits | undefined;
  readonly unit?: string;
  readonly source?: string;
}

const headings = ["what it is", "symbol", "value", "lower", "upper", "unit", "source"];

/** A table of fixed shape, seven columns; a value that is not known is a blank cell. */
export function table(rows: readonly TableRow[], withHeadings: boolean): (number | string)[][] {
  const body = rows.map(({ what, symbol, value = "", unit = "", source = "" }) => {
    const cells = typeof value === "object" ? [value.value, value.lower, value.upper] : [value, "", ""];
    return finite([what, symbol, ...cells, unit, source]);
  });
  return withHeadings ? [headings, ...body] : body;
}
