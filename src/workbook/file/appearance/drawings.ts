import type { Area } from "../../model";
import type { Archive } from "../archive";
import { readRelationships } from "../sheet/relationships";
import { findPrefixedAttribute, type XmlPart } from "../xml/xml";
import { type Chart, readChart } from "./charts";

/** A chart or picture on a sheet. */
export interface Drawing {
  readonly kind: "chart" | "picture" | "drawing";
  /** The cells it touches; undefined if it is not anchored to two cells. */
  readonly area: Area | undefined;
  /** Its alternative text; "" if there is none. */
  readonly words: string;
  /** The chart, if of a kind that can be drawn. */
  readonly chart?: Chart;
}

type Corner = Record<"row" | "col" | "rowOff" | "colOff", number>;

const createCorner = (): Corner => ({ row: 0, col: 0, rowOff: 0, colOff: 0 });

const kinds: ReadonlyMap<string, Drawing["kind"]> = new Map(Object.entries({ graphicFrame: "chart", pic: "picture" }));

/** The drawings of a drawing part, in order (ECMA-376 part 1, 20.5.2). */
export function readDrawings(archive: Archive, partName: string): Drawing[] {
  const found: Drawing[] = [];
  let corners: { from: Corner; to: Corner } | undefined;
  let place: Corner | undefined;
  let number: keyof Corner | undefined;
  let digits = "";
  let kind: Drawing["kind"] = "drawing";
  let words: string | undefined;
  let chartId: string | undefined;
  const links = readRelationships(archive, partName);
  archive.read(partName, {
    open(name, attributes, part: XmlPart) {
      if (/^(twoCell|oneCell|absolute)Anchor$/.test(name)) {
        corners = name === "twoCellAnchor" ? { from: createCorner(), to: createCorner() } : undefined;
        [kind, words, chartId] = ["drawing", undefined, undefined];
      } else if (name === "from" || name === "to") place = corners?.[name];
      else if (place && Object.hasOwn(place, name)) {
        [number, digits] = [name as keyof Corner, ""];
        part.wantText();
      } else if (name === "cNvPr") words ??= attributes["descr"] ?? attributes["title"] ?? "";
      else if (name === "chart") chartId = findPrefixedAttribute(attributes, "id");
      else if (kind === "drawing") kind = kinds.get(name) ?? kind;
    },
    addText(text) {
      digits += text;
    },
    close(name, part: XmlPart) {
      if (number !== undefined && name === number) {
        if (place) place[number] = Number(digits);
        number = undefined;
        part.ignoreText();
      } else if (name === "from" || name === "to") place = undefined;
      else if (/Anchor$/.test(name)) {
        const part = links.find(({ id }) => id === chartId)?.target;
        const chart = part !== undefined && archive.findEntry(part) ? readChart(archive, part) : undefined;
        const area = corners && findCoveredArea(corners);
        found.push({ kind, area, words: words ?? "", ...(chart && { chart }) });
      }
    },
  });
  return found;
}

/** A corner exactly on a cell's edge touches only the cells before it. */
function findCoveredArea({ from, to }: { from: Corner; to: Corner }): Area {
  const bottom = to.rowOff > 0 ? to.row : to.row - 1;
  const right = to.colOff > 0 ? to.col : to.col - 1;
  return { top: from.row, left: from.col, bottom: Math.max(from.row, bottom), right: Math.max(from.col, right) };
}
