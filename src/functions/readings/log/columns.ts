import { MethodError } from "../../../core/index";
import { shorten } from "../../cells/text";
import type { Settings } from "../../settings/settings";

const columnWords = ["time", "pressure", "fan pressure", "flow", "state", "other"] as const;

type ColumnWord = (typeof columnWords)[number];

/** Where each column stands; −1 where the log has none. */
export interface Places {
  readonly width: number;
  readonly time: number;
  readonly pressure: number;
  readonly fan: number;
  readonly isFlow: boolean;
  readonly state: number;
}

/** A rule that the settings break. */
export function invalidSetting(rule: string): MethodError {
  return new MethodError("invalid", "settings", rule);
}

/** The columns as the setting lists them; two columns are time and pressure, more are never guessed. */
export function placesIn({ columns }: Settings, width: number): Places {
  if (columns === undefined && width !== 2) {
    throw invalidSetting(
      `the log has ${width} columns: say what they are under "columns", as "time, pressure, fan pressure"`,
    );
  }
  const listed = (columns ?? "time, pressure")
    .split(/[,;]/)
    .map((word) => word.trim().toLowerCase().replace(/\s+/g, " "));
  const words = listed as ColumnWord[];
  for (const word of words) {
    if (!columnWords.includes(word))
      throw invalidSetting(`columns: "${shorten(word)}" is not one of: ${columnWords.join(", ")}`);
    if (word !== "other" && words.indexOf(word) !== words.lastIndexOf(word)) {
      throw invalidSetting(`columns: "${word}" stands twice`);
    }
  }
  if (words.length !== width) throw invalidSetting(`columns: ${words.length} are listed, the log has ${width}`);
  const place = (word: ColumnWord) => words.indexOf(word);
  const [fanPressure, flow] = [place("fan pressure"), place("flow")];
  if (place("time") < 0 || place("pressure") < 0) throw invalidSetting("columns: time and pressure are needed");
  if (fanPressure >= 0 && flow >= 0)
    throw invalidSetting('columns: fan pressure or flow, not both; call the other one "other"');
  return {
    width,
    time: place("time"),
    pressure: place("pressure"),
    fan: Math.max(fanPressure, flow),
    isFlow: flow >= 0,
    state: place("state"),
  };
}
