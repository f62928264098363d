import { eachLimit, type Limits } from "../../core/index";
import { fromMethod, type UnitSystem } from "./units";

/** A row of a result table. `what` is for people, `symbol` is the key that never changes, value and limits may be blank. */
export interface TableRow {
  readonly what: string;
  readonly symbol: string;
  readonly value: number | string | Limits | undefined;
  readonly unit: string;
  readonly source: string;
}

export function row(what: string, symbol: string, value: TableRow["value"], unit = "", source = ""): TableRow {
  return { what, symbol, value, unit, source };
}

/** Makes rows of values that come in the method's units and are shown in the user's. */
export function rowsIn(system: UnitSystem) {
  return (
    what: string,
    symbol: string,
    value: number | Limits | undefined,
    measures: keyof UnitSystem,
    source?: string,
    unit = system[measures],
  ): TableRow => row(what, symbol, shownIn(system, value, measures), unit, source);
}

function shownIn(
  system: UnitSystem,
  value: number | Limits | undefined,
  measures: keyof UnitSystem,
): number | Limits | undefined {
  if (typeof value !== "object") return fromMethod(value, measures, system);
  return eachLimit(value, (one) => fromMethod(one, measures, system));
}

/** A level of confidence as a person reads it: "95 %". */
export function percent(level: number): string {
  return `${Number((100 * level).toPrecision(6))} %`;
}

const headings = ["what it is", "symbol", "value", "lower", "upper", "unit", "source"];

/** A table of fixed shape, seven columns; a value that is not known is a blank cell. */
export function table(rows: readonly TableRow[], headingsWanted: "yes" | "no" | undefined): (number | string)[][] {
  const body = rows.map(({ what, symbol, value = "", unit, source }) =>
    typeof value === "object"
      ? [what, symbol, value.value, value.lower, value.upper, unit, source]
      : [what, symbol, value, "", "", unit, source],
  );
  return headingsWanted === "yes" ? [headings, ...body] : body;
}
