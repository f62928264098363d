import type { Inspector } from "../book/inspector";
import { twinsOf, type Twins } from "./twins";
import type { WholeTest } from "./whole-tests";

/** Tests of one house in the two directions: on sheets built alike, or with their volume from the same cells. */
export function housePairs(
  view: Inspector,
  twins: readonly Twins[],
  tests: readonly WholeTest[],
): (readonly [WholeTest, WholeTest])[] {
  const pairs: (readonly [WholeTest, WholeTest])[] = [];
  for (const [index, one] of tests.entries()) {
    for (const other of tests.slice(index + 1)) {
      if (one.direction === other.direction) continue;
      const areTwins = twinsOf(twins, one.pressures.sheet).includes(other.pressures.sheet);
      const volume = volumeSource(view, one);
      if (areTwins || (volume !== "" && volume === volumeSource(view, other))) pairs.push([one, other]);
    }
  }
  return pairs;
}

function volumeSource(view: Inspector, test: WholeTest): string {
  const place = test.settings.get("volume")?.place;
  if (!place) return "";
  const read = view.precedents(place).map((area) => view.addressOfArea(area));
  return read.length > 0 ? read.join(" ") : view.address(place);
}
