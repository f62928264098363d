import type { RunPlaces } from "./direction";
import { airLines } from "./shadow-air";
import { fitLines } from "./shadow-fit";
import { type ShadowLine, ShadowLines } from "./shadow-line";
import { resultLines } from "./shadow-results";

/** The main line of one run, every step a native formula on the typed cells of its sheet. */
export function shadowLines(run: RunPlaces, index: number): readonly ShadowLine[] {
  const list = new ShadowLines(run, index);
  airLines(list);
  fitLines(list);
  resultLines(list);
  return list.lines;
}
