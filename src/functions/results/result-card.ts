import type { Limits } from "../../core/index";
import { finite, inCell } from "../cells/host-error";
import type { TableRow } from "../cells/table";
import { resultRows } from "./result-rows";
import { wholeTest } from "./whole-test";

const hostTakesCards = cardSupport(() => (globalThis as { readonly Office?: AskedOffice }).Office);

/** What a card shows under a separate heading; everything else of the test is under "Steps". */
const sections: Readonly<Record<string, readonly string[]>> = {
  Result: ["n50", "q50", "qE50", "qF50", "n_pr", "q_pr", "qE_pr", "qF_pr", "ELA4", "AL10", "EqLA10"],
  "Leakage curve": ["n", "n_data", "prior_share", "C", "C_L", "r2", "count"],
};

interface Property {
  readonly type: "Double" | "String";
  readonly basicType: "Double" | "String";
  readonly basicValue: number | string;
  readonly propertyMetadata?: { readonly sublabel: string };
}

function property(value: number | string, unit = ""): Property {
  const type = typeof value === "number" ? "Double" : "String";
  const plain = { type, basicType: type, basicValue: finite(value) } as const;
  return unit === "" || unit === "–" ? plain : { ...plain, propertyMetadata: { sublabel: unit } };
}

const isLimits = (value: TableRow["value"]): value is Limits => typeof value === "object";

/** The properties of one row: its value under its symbol, limits under symbol_lower and symbol_upper; a row without a value has none. */
function propertiesOf({ symbol, value, unit }: TableRow): [string, Property][] {
  if (value === undefined || value === "") return [];
  if (!isLimits(value)) return [[symbol, property(value, unit)]];
  return [
    [symbol, property(value.value, unit)],
    [`${symbol}_lower`, property(value.lower, unit)],
    [`${symbol}_upper`, property(value.upper, unit)],
  ];
}

function layout(title: string, names: readonly string[]): object {
  const named = Object.entries(sections).map(
    ([heading, symbols]) => [heading, names.filter((name) => symbols.includes(name))] as const,
  );
  const rest = names.filter((name) => !named.some(([, taken]) => taken.includes(name)));
  const all = [...named, ["Steps", rest] as const].filter(([, properties]) => properties.length > 0);
  return {
    title: { property: names.includes(title) ? title : names[0] },
    sections: all.map(([heading, properties]) => ({ layout: "TwoColumn", title: heading, properties })),
  };
}

/**
 * One direction of a test as a number that carries every step: n50 if a volume is given, otherwise q50. In Excel
 * versions with data types the cell opens as a card, and =A1.n50, =A1.C_L, =A1.n_lower fetch its properties, named by
 * the symbols of TESTRESULT; older versions show the plain number.
 * Equation: q = C·Δp^n; C_L = C·(ρ/ρ0)^(1−n), by ASTM E779, ASTM E3158 and the US Army Corps also ·(μ/μ0)^(2n−1); q50 =
 * C_L·50^n; n50 = q50/V.
 * Source: ISO 9972:2015; ASTM E779-19 where the setting "standard" names it.
 * @customfunction RESULTCARD
 * @param direction "depressurization" or "pressurization".
 * @param pressures Pressure differences as read, Pa, indoors minus outdoors, one per row; or two columns, time and pressure. 0 beside a blank flow means blank.
 * @param flows Flows, m³/h (SI L/s: L/s, IP: cfm); the setting "flow basis" says of which kind. Several columns are several fans, added together; type "off" for a fan that is not running.
 * @param baseline_before Baseline readings before the test, Pa, signed. 0 is a value: pass blanks as "".
 * @param [baseline_after] Baseline readings after the test, Pa, signed. 0 is a value: pass blanks as "".
 * @param [settings] Two columns, label and value, as for TESTRESULT. Each label says whether 0 is a value.
 * @param [include] "yes" or "no" for each row. Blank or 0 means yes.
 * @returns The number with its properties.
 * @core results/test-result.ts
 * @check functions/result-card.test.ts
 */
export function resultCard(
  direction: string,
  pressures: any[][],
  flows: any[][],
  baseline_before: any[][],
  baseline_after?: any[][],
  settings?: any[][],
  include?: any[][],
): any {
  return inCell(() => {
    const test = wholeTest([direction, pressures, flows, baseline_before, baseline_after, settings, include]);
    const properties = Object.fromEntries(resultRows(test).flatMap(propertiesOf));
    const headline = properties["n50"] ?? properties["q50"];
    if (!hostTakesCards()) return headline?.basicValue;
    const title = properties["n50"] === undefined ? "q50" : "n50";
    return {
      type: "Double",
      basicType: "Double",
      basicValue: headline?.basicValue,
      numberFormat: title === "n50" ? "0.00" : "0",
      properties,
      layouts: { card: layout(title, Object.keys(properties)) },
    };
  });
}

/** The part of Office's interface that is asked; `context` is absent until Office is ready. */
export interface AskedOffice {
  readonly context?: {
    readonly requirements?: { readonly isSetSupported: (name: string, version: string) => boolean };
  };
}

/**
 * Whether the host takes a number with properties as the result of a function; it does from CustomFunctionsRuntime 1.4 on. The host is asked once. Where
 * there is no Office to ask (Node, the evaluator), it does.
 */
export function cardSupport(office: () => AskedOffice | undefined): () => boolean {
  let answer: boolean | undefined;
  return () => (answer ??= office()?.context?.requirements?.isSetSupported("CustomFunctionsRuntime", "1.4")) ?? true;
}
