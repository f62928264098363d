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
  const body = rows.map(({ what, symbol, value = "", unit = "", source = "" }) =>
    typeof value === "object"
      ? [what, symbol, finite(value.value), finite(value.lower), finite(value.upper), unit, source]
      : [what, symbol, finite(value), "", "", unit, source],
  );
  return withHeadings ? [headings, ...body] : body;
}
