import { areaOf, isInside, placeKey, type Place } from "../../book/area";
import type { CellStyle } from "../../file/appearance/cell-styles";
import type { Finding } from "../finding";
import { verdictWord } from "../verdicts";
import { addsDigits, formatShown, showsNumber } from "../visible";
import type { Check, Review } from "../review";
import { formatCellValue } from "../../formatting";
import { sentence } from "../../file/problem";

/** Values in the chain, and the judged figure wherever it appears, hidden by their formatting: a number format that shows nothing or other words, or text in the fill colour. */
export const findHiddenValues: Check = (review) => {
  const unseen = new Map<CellStyle | undefined, boolean>();
  const places = [...new Map([...review.chain, ...findRepeating(review)]).values()].filter(
    (place) => !isBlank(review, place),
  );
  places.sort((a, b) => a.sheet - b.sheet || a.row - b.row || a.column - b.column);
  return places.flatMap((place) => {
    const how = explainHiding(review, place, unseen);
    return how === undefined ? [] : [reportHiddenValue(review, place, how)];
  });
};

/** Cells that repeat the judged figure or the verdict, such as those on a cover. */
function findRepeating({ view, verdicts }: Review): [number, Place][] {
  const judged = new Set(
    verdicts.flatMap(({ call, result }) => (result ? (view.evaluateNode(result.node, call.place) ?? []) : [])),
  );
  const given = new Set(
    verdicts.flatMap(({ call, cells }) => [call.place, ...cells.map(({ place }) => place)]).map(placeKey),
  );
  return view.listFormulaPlaces().flatMap((place): [number, Place][] => {
    const value = view.readValue(place);
    const repeats =
      typeof value === "number"
        ? judged.has(value)
        : typeof value === "string" && verdictWord.test(value.trim()) && view.dependsOn([areaOf(place)], given);
    return repeats ? [[placeKey(place), place]] : [];
  });
}

function isBlank({ view }: Review, place: Place): boolean {
  const value = view.readValue(place);
  return value === null || value === "";
}

/** What a number format writes as it stands. */
const literals = /"[^"]*"|\\./g;

/** @param unseen Of each style met before, whether its text is in the colour of its fill: a workbook has few of them. */
function explainHiding(
  { view, state }: Review,
  place: Place,
  unseen: Map<CellStyle | undefined, boolean>,
): string | undefined {
  const value = view.readValue(place);
  const format = view.findCell(place)?.format ?? "General";
  if (typeof value === "number" && !showsNumber(value, format)) {
    const text = formatShown(value, format);
    return text === ""
      ? sentence`its number format (${format}) shows nothing`
      : sentence`its number format shows “${text}” whatever the value`;
  }
  if (typeof value === "number" && addsDigits(format)) return sentence`its number format (${format}) adds digits to it`;
  const textSection = format.split(";")[3];
  if (typeof value === "string" && textSection !== undefined && !/@|general/i.test(textSection.replace(literals, ""))) {
    const words = (textSection.match(literals) ?? [])
      .map((part) => part.replace(/^\\|"/g, ""))
      .join("")
      .trim();
    return words === ""
      ? sentence`its number format (${format}) shows no text`
      : sentence`its number format shows “${words}” whatever the text`;
  }
  const sheet = state.sheets[place.sheet];
  const own = sheet?.styleOf(place.row, place.column);
  const { colour, size = usualSize } = own?.font ?? {};
  if (size < leastSize) return `its font size is ${String(size)} points`;
  if (!unseen.has(own)) unseen.set(own, isUnseen(colour, own?.fill));
  if (unseen.get(own)) return `its text is the colour of the fill (${colour ?? "000000"})`;
  for (const { areas, style } of [...(sheet?.rules ?? []), ...(sheet?.unjudgedRules ?? [])]) {
    if (!areas.some((area) => isInside(area, place.row, place.column))) continue;
    const hides = style.format !== undefined && typeof value === "number" && !showsNumber(value, style.format);
    const isBlended = style.font.colour !== undefined && isUnseen(style.font.colour, style.fill ?? own?.fill);
    if (hides || isBlended) return "a conditional format can make it invisible";
  }
  return undefined;
}

const leastContrast = 1.15;
/** Points: smaller text is a speck. */
const [leastSize, usualSize] = [4, 10];

function isUnseen(font: string | undefined, fill: string | undefined): boolean {
  const [one, other] = [computeLuminance(font ?? "000000"), computeLuminance(fill ?? "FFFFFF")];
  return (Math.max(one, other) + 0.05) / (Math.min(one, other) + 0.05) < leastContrast;
}

/** Relative luminance by WCAG 2.1. */
function computeLuminance(colour: string): number {
  const [red = 0, green = 0, blue = 0] = [0, 2, 4].map((at) => {
    const part = parseInt(colour.slice(at, at + 2), 16) / 255;
    return part <= 0.04045 ? part / 12.92 : ((part + 0.055) / 1.055) ** 2.4;
  });
  return 0.2126 * red + 0.7152 * green + 0.0722 * blue;
}

function reportHiddenValue({ view }: Review, place: Place, how: string): Finding {
  return {
    kind: "hidden value",
    severity: "error",
    place: view.formatAddress(place),
    what: `The cell holds ${formatCellValue(view.readValue(place))}, which cannot be seen: ${how}.`,
    why: "The result depends on a value that no reader can see.",
    todo: "Give the cell a plain number format and a legible colour.",
  };
}
