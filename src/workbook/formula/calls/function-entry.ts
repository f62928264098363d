import type { ErrorValue } from "../../model";
import type { Grid } from "../grid/grid";
import type { AddressStyle, FormulaKind } from "../references/frame";
import type { Place } from "../../book/area";
import type { Lambda, Matrix, Reference, Scalar, Value } from "../values/value";

/** What a function may know about its call: the cell, the book, the time. */
export interface Caller {
  readonly name: string;
  readonly place: Place;
  readonly grid: Grid;
  /** The time of this evaluation; if undefined, functions that need it are refused. */
  readonly now: Date | undefined;
  /** The kind of formula: ordinary, in braces, or dynamic. */
  readonly kind: FormulaKind;
  /** True where the formula is calculated as an array. */
  readonly inArray: boolean;
  /** A reference read into memory, anything else as it is; errors and unions come back as error values. */
  scalars(value: Value): Scalar | Matrix;
  /** One value: implicit intersection outside array formulas. */
  scalar(value: Value): Scalar;
  /** The reference given by a text such as "Sheet1!A1:B2", "R1C1" or a defined name, or undefined. */
  referenceOfText(text: string, style: AddressStyle): Value | undefined;
}

/**
 * What a function does with an argument.
 *
 * - number, text, logical: one value, coerced as Excel coerces; arrays make Excel call the function for each element.
 * - scalar: one value as it is, errors go straight to the result; any: the same, errors included.
 * - values: ranges and arrays as they are, for functions that treat cells and typed values differently.
 * - table: the same, but calculated as an array whatever the cell (INDEX, LOOKUP, LINEST); array: also read into memory.
 * - reference: a range, or #VALUE!; lambda: a LAMBDA; lazy: evaluated only when the function asks.
 *
 * A question mark: may be absent, an empty place between commas counts as blank. Two: an empty place counts as absent.
 */
export type BaseKind =
  "number" | "text" | "logical" | "scalar" | "any" | "values" | "table" | "array" | "reference" | "lambda" | "lazy";
type Kind = BaseKind | `${BaseKind}?` | `${BaseKind}??`;

/** An argument evaluated on demand. */
export interface Lazy {
  /** True for an empty place between commas. */
  readonly empty: boolean;
  /** The value as it is: a reference stays one. */
  value(): Value;
  /** The value reduced to scalars: one, or an array of them. */
  scalars(): Scalar | Matrix;
}

interface Given {
  number: number;
  text: string;
  logical: boolean;
  scalar: Exclude<Scalar, ErrorValue>;
  any: Scalar;
  values: Value;
  table: Value;
  array: Matrix;
  reference: Reference;
  lambda: Lambda;
  lazy: Lazy;
}

type ArgumentOf<K> = K extends `${infer B extends BaseKind}??`
  ? Given[B] | undefined
  : K extends `${infer B extends BaseKind}?`
    ? Given[B] | undefined
    : K extends BaseKind
      ? Given[K]
      : never;

export type Argument = Given[BaseKind] | undefined;

export interface FunctionEntry {
  readonly kinds: readonly BaseKind[];
  /** For each kind: an empty place between commas counts as an absent argument. */
  readonly emptyIsAbsent: readonly boolean[];
  /** How many of the last kinds repeat indefinitely; 0 for a fixed number of arguments. */
  readonly repeats: number;
  readonly least: number;
  /** Zero in place of unused rows of a whole column does not change the result. */
  readonly ignoresZeros: boolean;
  /** Decides itself whether the unused rows of a calculated whole column count. */
  readonly judgesUnusedRows?: boolean;
  readonly compute: (caller: Caller, given: readonly Argument[]) => Value;
}

/** The functions of one group. */
export type FunctionTable = Readonly<Record<string, FunctionEntry>>;

function split(kinds: readonly Kind[]): Pick<FunctionEntry, "kinds" | "emptyIsAbsent"> {
  return {
    kinds: kinds.map((kind) => kind.replace(/\?+$/, "") as BaseKind),
    emptyIsAbsent: kinds.map((kind) => kind.endsWith("??")),
  };
}

/** A function with a fixed list of arguments. */
export function takes<const K extends readonly Kind[]>(
  kinds: K,
  compute: (given: { readonly [I in keyof K]: ArgumentOf<K[I]> }, caller: Caller) => Value,
): FunctionEntry {
  return {
    ...split(kinds),
    repeats: 0,
    least: kinds.filter((kind) => !kind.endsWith("?")).length,
    ignoresZeros: false,
    compute: (caller, given) => compute(given as { readonly [I in keyof K]: ArgumentOf<K[I]> }, caller),
  };
}

/** A function whose last kinds repeat: first come the fixed ones, then any number of the repeated ones, at least `least` in all. */
export function takesMany<const K extends readonly Kind[], R extends BaseKind>(
  fixed: K,
  repeated: readonly R[],
  least: number,
  compute: (given: { readonly [I in keyof K]: ArgumentOf<K[I]> }, rest: readonly Given[R][], caller: Caller) => Value,
  ignoresZeros = false,
): FunctionEntry {
  return {
    ...split([...fixed, ...repeated]),
    repeats: repeated.length,
    least,
    ignoresZeros,
    compute: (caller, given) =>
      compute(
        given.slice(0, fixed.length) as unknown as { readonly [I in keyof K]: ArgumentOf<K[I]> },
        given.slice(fixed.length) as Given[R][],
        caller,
      ),
  };
}
