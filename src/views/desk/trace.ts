import functions from "../../functions/functions.json";
import {
  composeTitle,
  describeKind,
  describeValue,
  findFilledArea,
  formatTracedValue,
  listDetails,
  putNumbersIn,
  type Trace,
  type TracedPlace,
  traceOf,
} from "../../workbook/index";
import type { CellPlace, TraceAnswer, TraceStep } from "./answers";
import { type Desktop, findPlace, showCell } from "./opened";

type Tracer = (place: CellPlace) => TraceAnswer;

/** Traces cells of one workbook, reusing what was found for earlier ones. */
export function createTracer(desktop: Desktop): Tracer {
  const { book, evaluation, addIn, calls, now } = desktop;
  const trace = traceOf({ book, evaluation, addIn, calls, functions: functions.functions, now });
  return ({ sheet, row, column }) => describeTrace(desktop, trace(sheet, row, column));
}

function describeTrace(desktop: Desktop, { places, inputs }: Trace): TraceAnswer {
  return { steps: places.map((place) => describeStep(desktop, place)), inputs };
}

const mostMembers = 200;

function describeStep(desktop: Desktop, traced: TracedPlace): TraceStep {
  const place = findPlace(desktop, traced.address);
  return {
    address: traced.address,
    title: composeTitle(traced),
    kind: describeKind(traced),
    value: formatTracedValue(traced),
    withNumbers: traced.kind === "formula" && place ? putNumbersIn(desktop.view, place) : "",
    details: listDetails(traced),
    members: (traced.members ?? [])
      .slice(0, mostMembers)
      .map(({ address, value }) => ({ address, value: describeValue(value) })),
    table: place && traced.kind !== "blank" ? readTable(desktop, place, traced) : [],
    branches: traced.branches.map(({ role, node }) => ({ role, step: node })),
  };
}

/** The rows that an add-in function fills from this cell, as the sheet shows them; none if it gives a single value. */
function readTable(desktop: Desktop, place: CellPlace, traced: TracedPlace): (readonly string[])[] {
  if (traced.kind !== "formula" && traced.kind !== "spilled") return [];
  const { view, tests } = desktop;
  const owner = view.findOwner(place) ?? place;
  const call = tests.calls.find(
    ({ place: at, alone }) => alone && at.sheet === owner.sheet && at.row === owner.row && at.column === owner.column,
  );
  if (!call) return [];
  const { sheet, top, bottom, left, right } = findFilledArea(view, call);
  if (bottom === top) return [];
  const rows: string[][] = [];
  for (let row = top; row <= bottom; row += 1) {
    const cells: string[] = [];
    for (let column = left; column <= right; column += 1) cells.push(showCell(desktop, { sheet, row, column }));
    if (cells.some((text) => text !== "")) rows.push(cells);
  }
  return rows;
}
