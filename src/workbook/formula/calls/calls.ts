import { sentence } from "../../file/problem";
import { ErrorValue } from "../../model";
import { broadcast } from "../values/broadcast";
import { toLogical, toNumber, toText } from "../values/coerce";
import { refuse } from "../values/refusal";
import { errors, Lambda, Matrix, Omitted, Reference, type Scalar, type Value } from "../values/value";
import { spend, spendReading, spendText } from "../work-limits";
import type { Argument, BaseKind, Caller, FunctionEntry, Lazy } from "./function-entry";
import {
  oneArrayInBraces,
  refuseSingleConstant,
  refuseDoubtfulArray,
  refuseDoubtfulLifting,
  refuseRange,
  refuseWholeColumn,
} from "./lifting";

/** How the interpreter passes an argument, depending on the function. */
export interface ArgumentSource {
  /** As it is, calculated in the cell's own mode. */
  value(): Value;
  /** As it is, calculated as an array. */
  asArray(): Value;
  /** One value, or several if the function is to be called for each. */
  scalars(): Scalar | Matrix;
  /** As it is, if the result may become that of the whole formula (the branches of IF). */
  inPlace(): Value;
  readonly empty: boolean;
}

/** Calls a function: fits the arguments to their kinds, calls once or for each element, propagates errors. */
export function callFunction(entry: FunctionEntry, sources: readonly ArgumentSource[], caller: Caller): Value {
  const { kinds, repeats, least } = entry;
  if (sources.length < least) refuse(`${caller.name} has too few arguments`);
  if (sources.length > kinds.length && repeats === 0) refuse(`${caller.name} has too many arguments`);
  spend(40);
  const given: Argument[] = [];
  const lifted: { place: number; kind: BaseKind; matrix: Matrix }[] = [];
  const count = repeats === 0 ? kinds.length : Math.max(sources.length, kinds.length - repeats);
  for (let place = 0; place < count; place += 1) {
    const own = place < kinds.length ? place : kinds.length - repeats + ((place - kinds.length) % repeats);
    const base = kinds[own] as BaseKind;
    const source = sources[place];
    if (!source || (source.empty && entry.emptyIsAbsent[own] === true)) {
      given.push(undefined);
      continue;
    }
    const fitted = fit(base, source, caller, entry);
    if (fitted instanceof Matrix) spend(fitted.values.length);
    else if (typeof fitted === "string") spendReading(fitted.length);
    if (fitted instanceof ErrorValue && base !== "any" && base !== "values" && base !== "table") return fitted;
    if (isScalarKind(base) && !source.empty) refuseSingleConstant(caller, () => source.value());
    if (fitted instanceof Matrix && isScalarKind(base)) lifted.push({ place, kind: base, matrix: fitted });
    given.push(fitted);
  }
  if (lifted.length === 0) return refuseNonFinite(entry.compute(caller, given), caller);
  refuseDoubtfulLifting(
    caller,
    lifted.map(({ matrix }) => matrix),
  );
  if (caller.kind === "braces" && lifted.length > 1 && oneArrayInBraces.has(caller.name))
    refuse(`${caller.name} with two arrays of arguments in braces`);
  return broadcast(
    lifted.map(({ matrix }) => matrix),
    (values) => {
      const own = [...given];
      for (const [turn, { place, kind }] of lifted.entries()) {
        const value = coerceScalar(kind, values[turn] ?? null);
        if (value instanceof ErrorValue && kind !== "any") return value;
        own[place] = value;
      }
      return requireSingle(refuseNonFinite(entry.compute(caller, own), caller), caller);
    },
  );
}

/** No function may return a non-finite number; those known to overflow return #NUM! themselves. */
function refuseNonFinite(value: Value, caller: Caller): Value {
  if (typeof value === "string") spendText(value.length);
  if (typeof value === "number" && !Number.isFinite(value)) refuse(`${caller.name} gives no finite number`);
  return value;
}

const isScalarKind = (base: BaseKind): boolean =>
  base === "number" || base === "text" || base === "logical" || base === "scalar" || base === "any";

function fit(base: BaseKind, source: ArgumentSource, caller: Caller, entry: FunctionEntry): Argument | ErrorValue {
  switch (base) {
    case "number":
    case "text":
    case "logical":
    case "scalar":
    case "any": {
      if (!source.empty) refuseRange(caller, () => source.value());
      const value = source.empty ? null : source.scalars();
      if (value instanceof Matrix) {
        if (value.beyond) refuse(`a whole column inside ${caller.name}`);
        return value.rows * value.columns === 1 ? coerceScalar(base, value.at(0, 0)) : value;
      }
      return coerceScalar(base, value);
    }
    case "values":
      if (source.empty) return Omitted.value;
      if (caller.kind === "ordinary" && caller.name.startsWith("X"))
        refuseDoubtfulArray(caller, source.asArray(), () => source.value());
      return refuseUnbounded(source.value(), caller, entry);
    case "table": {
      if (source.empty) return Omitted.value;
      const asArray = source.asArray();
      refuseDoubtfulArray(caller, asArray, () => source.value());
      return refuseUnbounded(asArray, caller, entry);
    }
    case "array": {
      const asArray = source.empty ? null : source.asArray();
      refuseDoubtfulArray(caller, asArray, () => source.value());
      const value = caller.scalars(asArray);
      refuseWholeColumn(caller, value);
      return value instanceof Matrix ? refuseUnbounded(value, caller, entry) : new Matrix(1, 1, [value]);
    }
    case "reference": {
      const value = source.empty ? errors.value : source.value();
      if (value instanceof Reference && value.areas.some(({ sheet }) => sheet >= caller.grid.book.sheets.length))
        refuse(`${caller.name} over another workbook, which Excel calculates only while that is open`);
      if (value instanceof Reference || value instanceof ErrorValue) return value;
      return errors.value;
    }
    case "lambda": {
      const value = source.value();
      if (value instanceof Lambda || value instanceof ErrorValue) return value;
      return errors.value;
    }
    case "lazy":
      return { empty: source.empty, value: () => source.inPlace(), scalars: () => source.scalars() } satisfies Lazy;
  }
}

/** Refuses computed whole columns whose unused rows would count. */
function refuseUnbounded(value: Value, caller: Caller, entry: FunctionEntry): Value {
  if (!(value instanceof Matrix) || !value.beyond || entry.judgesUnusedRows) return value;
  const rest = value.beyond.value;
  if (value.fromCells && rest === null) return value;
  const counts = !(rest === null || rest === 0 || rest === false || rest === "");
  if (counts || !entry.ignoresZeros) refuse(`a whole column calculated inside ${caller.name}`);
  return value;
}

function coerceScalar(base: BaseKind, value: Scalar): Scalar {
  if (base === "number") return toNumber(value);
  if (base === "text") return toText(value);
  if (base === "logical") return toLogical(value);
  return value;
}

/** The one value of a call among many. */
function requireSingle(value: Value, caller: Caller): Scalar {
  const scalars = value instanceof Reference ? caller.scalars(value) : value;
  if (scalars instanceof Matrix) {
    return scalars.rows * scalars.columns === 1
      ? scalars.at(0, 0)
      : refuse(`${caller.name} gives arrays inside an array`);
  }
  if (scalars instanceof Lambda || scalars instanceof Omitted || scalars instanceof Reference) return errors.value;
  return scalars;
}

/** Why a function is not evaluated here, by its upper-case name in the file. */
export function explainUnknownFunction(name: string): string {
  const ofAddIn = /^_XLL\.(.+)$/.exec(name)?.[1] ?? /^_XLDUDF_(.+)$/.exec(name)?.[1];
  if (ofAddIn !== undefined) return sentence`the function ${ofAddIn} of another add-in`;
  if (name.startsWith("_XLUDF.") || name.startsWith("__XLUDF."))
    return sentence`the function ${name.replace(/^_+XLUDF\./, "")} of another program`;
  return sentence`the function ${name} is not one of those that are calculated here`;
}
