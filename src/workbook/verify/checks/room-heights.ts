import { isSingleCell, type Place, placeKey } from "../../book/area";
import { type EnteredRun, readSetting, readWord } from "../../book/tests/entered-runs";
import { formatFigure, formatList } from "../../formatting";
import type { Finding } from "../finding";
import type { Judgement } from "../judgements";
import { findJudgedRuns, listJudgedQuantities } from "../result-steps";
import type { Check, Review } from "../review";

const heightWords = /\b(clear )?height\b|höhe|hauteur|altura|altezza|hoogte|wysokość/i;
/** What a floor and a ceiling add to a clear height, m: common practice, no source. */
const [thinnest, thickest] = [0.25, 1];
/** Fewer rooms have no usual height. */
const leastRooms = 4;

/** Rooms so high that the house meets its limit only with them. */
export const checkRoomHeights: Check = (review) => {
  const { view } = review;
  const seen = new Set<number>();
  return review.judgements.flatMap((judgement): Finding[] => {
    const { result, limit } = judgement;
    const [run] = findJudgedRuns(review, judgement).filter(({ settings }) => settings.has("volume"));
    const setting = run?.settings.get("volume");
    const volume = setting && view.readNumber(setting.place);
    if (!run || !setting || volume === undefined || seen.has(placeKey(setting.place)) || result.value > limit.value)
      return [];
    seen.add(placeKey(setting.place));
    const quantities = listJudgedQuantities(review, judgement);
    // A result per area, or a flow, has no volume in it.
    if (quantities.length > 0 && !quantities.some((quantity) => quantity.startsWith("n"))) return [];
    return [
      ...findMeanHeight(review, judgement, run, { place: setting.place, volume }),
      ...findHighRooms(review, judgement, { place: setting.place, volume }),
    ];
  });
};

/** The cell of a test's volume, with what it holds. */
interface VolumeCell {
  readonly place: Place;
  readonly volume: number;
}

/** Mean heights of dwellings, m: seldom above the one, mostly near the other. Common practice, no source. */
const [highest, common] = [3.5, 2.6];

/** A volume over its floor area that no usual storey has, where the house meets its limit only with it. */
function findMeanHeight(
  { view }: Review,
  { result, limit }: Judgement,
  run: EnteredRun,
  { place, volume }: VolumeCell,
): Finding[] {
  const area = readSetting(view, run, "floor area");
  const metre = readWord(view, run, "units") === "ip" ? 1 / 0.3048 : 1;
  if (typeof area !== "number" || !(volume > highest * metre * area)) return [];
  const withCommon = (result.value * volume) / (common * metre * area);
  if (!(withCommon > limit.value)) return [];
  return [
    {
      kind: "room heights",
      severity: "warning",
      decides: true,
      place: view.formatAddress(place),
      what: `The volume over the floor area gives a mean height of ${formatFigure(volume / area / metre, 3)} m; with ${formatFigure(common)} m the limit ${formatFigure(limit.value)} is exceeded (${formatFigure(withCommon)}).`,
      why: "Few storeys of dwellings are that high; a larger volume makes the air change rate smaller.",
      todo: "Compare the heights and the floor area with the section drawings.",
    },
  ];
}

/** Rooms higher than the others by the thickness of a floor: outer heights in place of clear ones. */
function findHighRooms(review: Review, { result, limit }: Judgement, { place, volume }: VolumeCell): Finding[] {
  const { view } = review;
  const rooms = listRooms(review, place);
  const usual = [...rooms].sort((one, other) => one.height - other.height)[Math.floor((rooms.length - 1) / 2)]?.height;
  if (rooms.length < leastRooms || usual === undefined) return [];
  const high = rooms.filter(({ height }) => height > usual + thinnest && height < usual + thickest);
  const surplus = high.reduce((sum, room) => sum + room.volume * (1 - usual / room.height), 0);
  const [first] = high;
  if (!first || !((result.value * volume) / (volume - surplus) > limit.value)) return [];
  return [
    {
      kind: "room heights",
      severity: "warning",
      place: view.formatAddress(first.place),
      what: `${formatList(high.map(({ place, height }) => `${formatFigure(height)} m in ${view.formatAddress(place)}`))}; the other rooms have ${formatFigure(usual)} m, and with that height the limit ${formatFigure(limit.value)} is exceeded (${formatFigure((result.value * volume) / (volume - surplus))}).`,
      why: "The volume is that of the clear rooms; heights from floor to floor make it larger, and the air change rate smaller.",
      todo: "Compare with the section drawings, or measure the rooms.",
    },
  ];
}

interface Room {
  readonly place: Place;
  readonly height: number;
  readonly volume: number;
}

/** Typed heights behind a volume, each with the volume that its row computes from it. */
function listRooms({ view }: Review, volume: Place): Room[] {
  const rooms: Room[] = [];
  for (const place of view
    .findUpstream([
      { sheet: volume.sheet, top: volume.row, bottom: volume.row, left: volume.column, right: volume.column },
    ])
    .values()) {
    if (!view.parseFormulaAt(place) || view.findOwner(place)) continue;
    for (const area of view.listPrecedents(place)) {
      const cell = { sheet: area.sheet, row: area.top, column: area.left };
      const [height, own] = [view.readNumber(cell), view.readNumber(place)];
      if (!isSingleCell(area) || !view.isTyped(cell) || height === undefined || own === undefined) continue;
      if (cell.row === place.row && height > 1.5 && height < 6 && heightWords.test(view.labels.readWordsAbove(cell)))
        rooms.push({ place: cell, height, volume: own });
    }
  }
  return rooms;
}
