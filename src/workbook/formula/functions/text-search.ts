import { isError, toInteger } from "../values/coerce";
import { takes, type FunctionTable } from "../calls/function-entry";
import { errors, type Scalar } from "../values/value";
import { countOf, limitText, longest } from "./text";
import { hasWildcards, resolveEscapes, findWildcard } from "./wildcards";

/** FIND: the place of a text in another from a start, 1 for the first letter. */
function placeIn(text: string, wanted: string, start: number, find: (from: number) => number): Scalar {
  const from = toInteger(start);
  if (from < 1 || from > text.length + (wanted === "" ? 1 : 0)) return errors.value;
  const place = find(from - 1);
  return place < 0 ? errors.value : place + 1;
}

function searchFrom(text: string, wanted: string): (from: number) => number {
  const lower = text.toLowerCase();
  if (!hasWildcards(wanted)) return (from) => lower.indexOf(resolveEscapes(wanted).toLowerCase(), from);
  return (from) => findWildcard(wanted, text, from);
}

function substituteText(text: string, old: string, replacement: string, which: number | undefined): Scalar {
  if (which !== undefined && toInteger(which) < 1) return errors.value;
  if (old === "") return text;
  if (which === undefined) {
    const parts = text.split(old);
    // Every letter replaced by a long text would be a text longer than the engine can hold.
    const length = text.length + (parts.length - 1) * (replacement.length - old.length);
    return length > longest ? errors.value : parts.join(replacement);
  }
  const wanted = toInteger(which);
  let place = -1;
  for (let count = 0; count < wanted; count += 1) {
    place = text.indexOf(old, place < 0 ? 0 : place + old.length);
    if (place < 0) return text;
  }
  return limitText(text.slice(0, place) + replacement + text.slice(place + old.length));
}

/** Text found and replaced in text. */
export const textSearch: FunctionTable = {
  FIND: takes(["text", "text", "number?"], ([wanted, text, start = 1]) =>
    placeIn(text, wanted, start, (from) => text.indexOf(wanted, from)),
  ),
  SEARCH: takes(["text", "text", "number?"], ([wanted, text, start = 1]) =>
    placeIn(text, wanted, start, searchFrom(text, wanted)),
  ),
  SUBSTITUTE: takes(["text", "text", "text", "number?"], ([text, old, replacement, which]) =>
    substituteText(text, old, replacement, which),
  ),
  REPLACE: takes(["text", "number", "number", "text"], ([text, start, count, replacement]) => {
    const length = countOf(count);
    if (isError(length)) return length;
    if (start < 1) return errors.value;
    const from = toInteger(start) - 1;
    return limitText(text.slice(0, from) + replacement + text.slice(from + length));
  }),
};
