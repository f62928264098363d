import type { Problem } from "../../../functions/cells/rule-codes";
import { ErrorValue, type ErrorCode } from "../../model";
import type { Caller } from "./function-entry";
import type { ArgumentSource } from "./calls";
import { isError, toLogical, toNumber, toText } from "../values/coerce";
import { refuse } from "../values/refusal";
import { errors, Matrix, Reference, type Scalar, type Value } from "../values/value";
import { sentence } from "../../file/problem";
import { spend } from "../work-limits";

/** A parameter as described in the function metadata. */
export interface AddInParameter {
  readonly name: string;
  readonly matrix: boolean;
  readonly repeating: boolean;
  readonly type: "number" | "string" | "boolean" | "any";
}

/** An add-in function: its parameters and its code. */
export interface AddInFunction {
  readonly parameters: readonly AddInParameter[];
  readonly compute: (...given: unknown[]) => unknown;
}

/** The add-in's functions by id, in upper case and without the namespace. */
export type AddInRegistry = ReadonlyMap<string, AddInFunction>;

/** One call: where, with which arguments, and its result (an error value if the function refused). */
export interface AddInCall {
  readonly id: string;
  readonly sheet: number;
  readonly row: number;
  readonly column: number;
  readonly given: readonly unknown[];
  readonly answer: unknown;
}

/** Calls add-in functions as Excel does: plain arguments in; numbers, text, arrays and error objects out. */
export class AddInCalls {
  constructor(
    private readonly registry: AddInRegistry,
    /** What a blank cell is passed as. Hosts differ: null in most, 0 in some. */
    private readonly blank: unknown,
    /** Records every call. */
    private readonly calls?: AddInCall[],
  ) {}

  call(id: string, sources: readonly ArgumentSource[], caller: Caller): Value {
    const entry = this.registry.get(id.toUpperCase());
    if (!entry) return refuse(sentence`the add-in has no function ${id}`);
    const given: unknown[] = [];
    for (const [place, parameter] of entry.parameters.entries()) {
      if (parameter.repeating) {
        given.push(sources.slice(place).map((source) => this.convertArgument(parameter, source, caller)));
        break;
      }
      given.push(this.convertArgument(parameter, sources[place], caller));
    }
    const last = entry.parameters.at(-1);
    if (sources.length > entry.parameters.length && last?.repeating !== true) refuse(`${id} has too many arguments`);
    spend(callSteps + 20 * countOf(given));
    const wrong = given.find((value) => value instanceof ErrorValue);
    if (wrong) return wrong;
    if (caller.grid.notes.current) caller.grid.notes.current.calls += 1;
    const { sheet, row, column } = caller.place;
    const note = (answer: unknown) => this.calls?.push({ id: id.toUpperCase(), sheet, row, column, given, answer });
    try {
      const answer = entry.compute(...given);
      note(answer);
      if (caller.grid.notes.current) caller.grid.notes.current.card = readCard(answer, id);
      return readResult(answer, id);
    } catch (problem) {
      const error = readError(problem);
      note(error);
      if (error) return error;
      throw problem;
    }
  }

  private convertArgument(parameter: AddInParameter, source: ArgumentSource | undefined, caller: Caller): unknown {
    if (!source || source.empty) return null;
    if (!parameter.matrix) {
      const value = source.scalars();
      if (!(value instanceof Matrix)) return this.convertScalar(value, parameter);
      return value.rows * value.columns === 1
        ? this.convertScalar(value.at(0, 0), parameter)
        : refuse(`${caller.name} gets several values for ${parameter.name}, which takes one`);
    }
    const given = source.value();
    if (
      !caller.inArray &&
      !(given instanceof Reference) &&
      !(given instanceof Matrix) &&
      source.asArray() instanceof Matrix
    ) {
      refuse(`a calculation with a range inside ${caller.name} in a cell that is not an array formula`);
    }
    const value = caller.scalars(given);
    if (!(value instanceof Matrix)) return [[this.readElement(value, parameter)]];
    if (value.beyond) refuse(`a whole column given to ${caller.name}`);
    return Array.from({ length: value.rows }, (_, row) =>
      Array.from({ length: value.columns }, (_, column) => this.readElement(value.at(row, column), parameter)),
    );
  }

  private convertScalar(value: Scalar, { type }: AddInParameter): unknown {
    if (type === "any" || value === null) return this.convertPlainValue(value);
    return type === "number" ? toNumber(value) : type === "string" ? toText(value) : toLogical(value);
  }

  private readElement(value: Scalar, { name, type }: AddInParameter): unknown {
    const fits = type === "any" || value === null || typeof value === type;
    return fits ? this.convertPlainValue(value) : refuse(`the range for ${name} holds values that are no ${type}s`);
  }

  private convertPlainValue(value: Scalar): unknown {
    if (value === null) return this.blank;
    return isError(value) ? { type: "Error", basicType: "Error", basicValue: value.code } : value;
  }
}

/** A call takes some microseconds, and more with each value passed. */
const callSteps = 2000;

const countOf = (given: unknown): number =>
  Array.isArray(given) ? given.reduce((sum: number, part: unknown) => sum + countOf(part), 0) : 1;

/** The properties of a card by name, undefined for any other result. */
function readCard(given: unknown, id: string): ReadonlyMap<string, Scalar> | undefined {
  if (typeof given !== "object" || given === null || !("properties" in given)) return undefined;
  const { properties } = given;
  if (typeof properties !== "object" || properties === null) return undefined;
  return new Map(Object.entries(properties).map(([name, value]) => [name.toLowerCase(), readElement(value, id)]));
}

/** An add-in function's result as a value of the sheet. */
function readResult(given: unknown, id: string): Value {
  if (!Array.isArray(given)) return readElement(given, id);
  const rows = given as unknown[];
  const first = rows[0];
  const columns = Array.isArray(first) ? first.length : 0;
  if (columns === 0) return refuse(`${id} gave an empty array`);
  const values: Scalar[] = [];
  for (const row of rows) {
    if (!Array.isArray(row) || row.length !== columns) refuse(`${id} gave an array with uneven rows`);
    for (const value of row as unknown[]) values.push(readElement(value, id));
  }
  return new Matrix(rows.length, columns, values);
}

function readElement(given: unknown, id: string): Scalar {
  if (typeof given === "number")
    return Number.isFinite(given) ? given : new ErrorValue("#NUM!", `${id} gave no finite number`);
  if (typeof given === "string" || typeof given === "boolean") return given;
  const error = readError(given);
  if (error) return error;
  // A card: a number or text with properties. The cell's value is the number or text.
  if (typeof given === "object" && given !== null && "basicValue" in given) return readElement(given.basicValue, id);
  return refuse(`${id} gave something that is no cell value`);
}

/** An error object of the add-in (a code such as "#N/A" and a message), or an error entity, as an error value. */
function readError(given: unknown): ErrorValue | undefined {
  if (typeof given !== "object" || given === null) return undefined;
  const { code, message, problem, type, basicValue } = given as {
    code?: unknown;
    message?: unknown;
    problem?: Problem;
    type?: unknown;
    basicValue?: unknown;
  };
  const shown = typeof code === "string" ? code : type === "Error" ? basicValue : undefined;
  if (typeof shown !== "string" || !shown.startsWith("#")) return undefined;
  const reason = typeof message === "string" ? message : "";
  const known = Object.values(errors).find((error) => error.code === shown);
  return known && reason === "" ? known : new ErrorValue(shown as ErrorCode, reason, problem);
}
