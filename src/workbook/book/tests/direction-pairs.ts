import type { Inspector } from "../inspector";
import { listTwins, type Twins } from "../like-formulas";
import { type EnteredRun, readSetting } from "./entered-runs";

/** Two runs of one test in opposite directions. */
export type DirectionPair = readonly [one: EnteredRun, other: EnteredRun];

/** What tells whether two runs were made in one house on one day. */
interface Marks {
  readonly sheet: number;
  /** The sheet's name without the words for a direction: "Plot 7" of "Plot 7 out". */
  readonly stem: string;
  readonly settings: string;
  readonly volume: number | undefined;
  readonly volumeSource: string;
  readonly day: number | undefined;
  readonly outdoors: number | undefined;
}

/** From this weight of evidence on, two runs are taken for one test. */
const enough = 2;
/** Outdoor temperatures of one visit, K. Common practice, no source. */
const mostWarming = 8;

/**
 * Runs of one test in the two directions. A workbook may hold several houses, an archive beside a retest, or a test during construction beside the final one:
 * each run is paired with those that share most with it, and only if it is among those that share most with them. Runs repeated in a direction tie, so each is paired.
 */
export function pairDirections(view: Inspector, runs: readonly EnteredRun[], twins: readonly Twins[]): DirectionPair[] {
  const marks = new Map(runs.map((run) => [run, readMarks(view, run)]));
  const candidates = runs.flatMap((one, index) =>
    runs.slice(index + 1).flatMap((other) => {
      if (one.direction === other.direction) return [];
      const evidence = weighEvidence(marks.get(one)!, marks.get(other)!, twins);
      return evidence >= enough ? [{ pair: [one, other] as const, evidence }] : [];
    }),
  );
  const best = new Map<EnteredRun, number>();
  for (const { pair, evidence } of candidates)
    for (const run of pair) best.set(run, Math.max(best.get(run) ?? 0, evidence));
  return candidates
    .filter(({ pair, evidence }) => pair.every((run) => best.get(run) === evidence))
    .map(({ pair }) => pair);
}

function weighEvidence(one: Marks, other: Marks, twins: readonly Twins[]): number {
  const isOneSheet = one.sheet === other.sheet;
  const isOneDay = one.day === undefined || other.day === undefined ? undefined : Math.abs(one.day - other.day) <= 1;
  const areTwins = isOneSheet || listTwins(twins, one.sheet).includes(other.sheet);
  return (
    (one.settings !== "" && one.settings === other.settings ? 4 : 0) +
    weighVolumes(one, other) +
    (isOneDay === undefined ? 0 : isOneDay ? 2 : -8) +
    (isOneSheet ? 2 : one.stem === other.stem ? 3 : -3) +
    (areTwins ? 2 : 0) +
    (Math.abs((one.outdoors ?? 0) - (other.outdoors ?? one.outdoors ?? 0)) > mostWarming ? -2 : 0)
  );
}

function weighVolumes(one: Marks, other: Marks): number {
  if (one.volumeSource !== "" && one.volumeSource === other.volumeSource) return 4;
  if (one.volume === undefined || other.volume === undefined) return 0;
  return one.volume === other.volume ? 2 : -2;
}

function readMarks(view: Inspector, run: EnteredRun): Marks {
  const sheet = run.call.place.sheet === run.pressures.sheet ? run.call.place.sheet : run.pressures.sheet;
  const readNumber = (label: string): number | undefined => {
    const value = readSetting(view, run, label);
    return typeof value === "number" ? value : undefined;
  };
  const day = readNumber("test date");
  return {
    sheet,
    stem: findStem(view.book.sheets[sheet]?.name ?? ""),
    settings: run.settingsArea ? view.formatArea(run.settingsArea) : "",
    volume: readNumber("volume"),
    volumeSource: findVolumeSource(view, run),
    day: day === undefined ? undefined : Math.floor(day),
    outdoors: readNumber("outdoor temperature"),
  };
}

function findVolumeSource(view: Inspector, run: EnteredRun): string {
  const place = run.settings.get("volume")?.place;
  if (!place) return "";
  const read = view.listPrecedents(place).map((area) => view.formatArea(area));
  return read.length > 0 ? read.join(" ") : view.formatAddress(place);
}

/** Words of a sheet's name for a direction, with the number of the run, in the languages of verdicts. */
const directionWords = new RegExp(
  "(?<!\\p{L})(de)?press(uri[sz]\\p{L}*|ure|ion|)(?!\\p{L})|(unter|über|ueber)druck|(onder|over)druk|(dé|sur)pression" +
    "|(des)?presuri\\p{L}*|(de|sobre)presi[oó]n|(de|sovra)pressione|(pod|nad)ciśnienie" +
    "|(?<!\\p{L})(blow(ing)? )?(out|in|down|up|minus|plus|neg|pos|negative|positive|exhaust|supply|d|p|u|ü|dp)(?!\\p{L})",
  "giu",
);

/** "Plot 7 out" and "Plot 7 in" have one stem, "FinalOut" and "FinalIn" too; a number after the direction is that of the run. */
function findStem(name: string): string {
  const words = name
    .replace(/(\p{Ll})(\p{Lu})/gu, "$1 $2")
    .replace(/(\p{L})(\d)/gu, "$1 $2")
    .replaceAll("_", " ");
  return words
    .replace(directionWords, "|")
    .replace(/\|[\s\d]*/g, "")
    .replace(/[^\p{L}\d]+/gu, " ")
    .trim()
    .toLowerCase();
}
