import type { Settings } from "../../settings/settings";
import { invalid, invalidSetting } from "../../cells/rule-codes";

/** What a column of a log may hold. */
export const columnWords = ["time", "pressure", "fan pressure", "flow", "state", "other"] as const;

type ColumnWord = (typeof columnWords)[number];

/** Index of each column; −1 if the log has none. */
export interface Places {
  readonly width: number;
  readonly time: number;
  readonly pressure: number;
  readonly fan: number;
  readonly isFlow: boolean;
  readonly state: number;
}

/** The columns as the setting lists them; two columns are time and pressure, more are never guessed. */
export function placesIn({ columns }: Settings, width: number): Places {
  if (columns === undefined && width !== 2) {
    throw invalid("settings", "columnsUnlisted", { width });
  }
  const listed = (columns ?? "time, pressure")
    .split(/[,;]/)
    .map((word) => word.trim().toLowerCase().replace(/\s+/g, " "));
  const words = listed as ColumnWord[];
  for (const word of words) {
    if (!columnWords.includes(word)) throw invalidSetting("columns", "notOneOf", { given: word, words: columnWords });
    if (word !== "other" && words.indexOf(word) !== words.lastIndexOf(word)) {
      throw invalidSetting("columns", "twice", { what: word });
    }
  }
  if (words.length !== width) throw invalidSetting("columns", "cellsInRow", { count: words.length, width });
  const place = (word: ColumnWord) => words.indexOf(word);
  const [fanPressure, flow] = [place("fan pressure"), place("flow")];
  if (place("time") < 0 || place("pressure") < 0) throw invalidSetting("columns", "timeAndPressure");
  if (fanPressure >= 0 && flow >= 0) throw invalidSetting("columns", "fanPressureOrFlow");
  return {
    width,
    time: place("time"),
    pressure: place("pressure"),
    fan: Math.max(fanPressure, flow),
    isFlow: flow >= 0,
    state: place("state"),
  };
}
