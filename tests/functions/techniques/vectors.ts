import { leakageFit } from "../../../src/functions";
import { column } from "../../authorities/support/sheet";
import vectors from "../../authorities/uncertainty-vectors/vectors.json";

const second = vectors.fits[1];
if (!second) throw new Error("no fit");
/** The fit whose errors are correlated. */
export const vector = second;

export const { pressures, flows, u_pressure, u_flow, expected } = vector;

export const [p, q, uncertainP, uncertainQ] = [pressures, flows, u_pressure, u_flow].map((values) =>
  column(values),
) as [unknown[][], unknown[][], unknown[][], unknown[][]];

export const FIFTEEN = "the vectors have fifteen digits";

export const fit = (technique: string, ofPressure?: unknown, ofFlow?: unknown) =>
  leakageFit(p, q, technique, undefined, undefined, ofPressure as unknown[][], ofFlow as unknown[][]);
