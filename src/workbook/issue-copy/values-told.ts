import { cellKey, ErrorValue, type Area, type CellValue, type Sheet } from "../model";

const mostWords = 4;

/** What the cells of an area hold, in few words: "0.41 to 1.9" for numbers, "pass 431, fail 69" for texts. */
export function valuesTold({ cells }: Sheet, { top, left, bottom, right }: Area): string {
  let [least, most] = [Infinity, -Infinity];
  const words = new Map<string, number>();
  for (let row = top; row <= bottom; row += 1)
    for (let column = left; column <= right; column += 1) {
      const value = cells.get(cellKey(row, column))?.value ?? null;
      if (typeof value === "number") [least, most] = [Math.min(least, value), Math.max(most, value)];
      else words.set(wordOf(value), (words.get(wordOf(value)) ?? 0) + 1);
    }
  const numbers = least > most ? [] : [least === most ? short(least) : `${short(least)} to ${short(most)}`];
  const counts = [...words].sort(([, a], [, b]) => b - a).map(([word, count]) => `${word} ${count}`);
  const others = counts.length - mostWords;
  return [...numbers, ...counts.slice(0, mostWords), ...(others > 0 ? [`${others} other texts`] : [])].join(", ");
}

function wordOf(value: CellValue): string {
  if (value instanceof ErrorValue) return value.code;
  if (typeof value === "boolean") return value ? "TRUE" : "FALSE";
  return (value ?? "") === "" ? "empty" : `“${String(value)}”`;
}

const short = (value: number): string => String(Number(value.toPrecision(6)));
