import type { ChartAxis } from "../../file/looks/charts";
import { colours } from "../../graph/looks";
import { element } from "../../graph/svg";
import { textAt } from "../../graph/text";
import { fitted, textWidth } from "../../graph/text-width";
import { letterSize, type ChartScale } from "./scale";

/** The rectangle that the points or bars of a chart lie in, pixels. */
export interface Plot {
  readonly left: number;
  readonly right: number;
  readonly top: number;
  readonly bottom: number;
}

/** Where words stand along an axis, and what they say. */
export interface Words {
  readonly at: number;
  readonly text: string;
}

const rule = (x1: number, y1: number, x2: number, y2: number, stroke: string) =>
  element("line", { x1, y1, x2, y2, stroke, "stroke-width": 0.8 });

/** Room on the right for half of the last number below. */
export const rightMargin = 24;

/** The widest that numbers beside or below an axis may be. */
export const numberRoom = 120;

/** Where the plot begins, so that the words beside it, and the axis's title, have room. */
export function leftOf(
  { left }: Plot,
  { title, isHidden }: ChartAxis,
  words: readonly Pick<Words, "text">[],
  room: number,
): number {
  const widest = isHidden ? 0 : Math.max(0, ...words.map(({ text }) => textWidth(text, letterSize)));
  return left + (title === "" ? 10 : 24) + Math.min(room, widest) + 8;
}

/** Where the plot ends, so that the words below it, and the axis's title, have room. */
export function bottomOf({ bottom }: Plot, { title }: ChartAxis): number {
  return bottom - (title === "" ? 24 : 40);
}

/** The numbers of a scale as words; none on an axis that is hidden. */
export function numbersOf(scale: ChartScale, { isHidden }: ChartAxis): Words[] {
  return isHidden ? [] : scale.ticks.map((tick) => ({ at: scale.place(tick), text: scale.text(tick) }));
}

/** Grid lines of one axis: upright ones, or lying ones. */
export function grid({ left, right, top, bottom }: Plot, scale: ChartScale, upright: boolean): string {
  const lines = scale.ticks.map((tick) => {
    const at = scale.place(tick);
    return upright ? rule(at, top, at, bottom, colours.hair) : rule(left, at, right, at, colours.hair);
  });
  return lines.join("");
}

/** The two lines that the plot stands on, words along them and their titles. */
export function frame(
  plot: Plot,
  beside: readonly Words[],
  below: readonly Words[],
  titles: { readonly beside: string; readonly below: string },
  room: { readonly beside: number; readonly below: number },
): string {
  const { left, right, top, bottom } = plot;
  const parts = [rule(left, top, left, bottom, colours.grey), rule(left, bottom, right, bottom, colours.grey)];
  for (const { at, text } of beside) {
    const short = fitted(text, room.beside, letterSize);
    parts.push(textAt(left - 6, at + 0.36 * letterSize, short, { size: letterSize, anchor: "end" }));
  }
  for (const { at, text } of below) {
    const short = fitted(text, room.below, letterSize);
    parts.push(textAt(at, bottom + 15, short, { size: letterSize, anchor: "middle" }));
  }
  const title = { size: letterSize, colour: colours.grey, anchor: "middle" } as const;
  if (titles.beside !== "") parts.push(textAt(12, (top + bottom) / 2, titles.beside, { ...title, turned: true }));
  if (titles.below !== "") parts.push(textAt((left + right) / 2, bottom + 32, titles.below, title));
  return parts.join("");
}
