import { isSingleCell, type Place, placeKey } from "../../book/area";
import { formatFigure, formatList } from "../../formatting";
import type { Finding } from "../finding";
import { findJudgedRuns } from "../result-steps";
import type { Check, Review } from "../review";

const heightWords = /\b(clear )?height\b|höhe|hauteur|altura|altezza|hoogte|wysokość/i;
/** What a floor and a ceiling add to a clear height, m: common practice, no source. */
const [thinnest, thickest] = [0.25, 1];
/** Fewer rooms have no usual height. */
const leastRooms = 4;

/** Rooms higher than the others by the thickness of a floor, where the house meets its limit only with them: outer heights in place of clear ones. */
export const checkRoomHeights: Check = (review) => {
  const { view } = review;
  const seen = new Set<number>();
  return review.judgements.flatMap((judgement): Finding[] => {
    const { result, limit } = judgement;
    const setting = findJudgedRuns(review, judgement).flatMap((run) => run.settings.get("volume") ?? [])[0];
    const volume = setting && view.readNumber(setting.place);
    if (!setting || volume === undefined || seen.has(placeKey(setting.place)) || result.value > limit.value) return [];
    seen.add(placeKey(setting.place));
    const rooms = listRooms(review, setting.place);
    const usual = [...rooms].sort((one, other) => one.height - other.height)[Math.floor((rooms.length - 1) / 2)]
      ?.height;
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
  });
};

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
