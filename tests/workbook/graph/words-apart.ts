import { measureText } from "../../../src/workbook/graph/text";
import { numberOf, wordsOf, type Drawn } from "./read-svg";

/** The box of a word; turned ones stand on their side. */
function boxOf(word: Drawn) {
  const [x, y, size] = [numberOf(word, "x"), numberOf(word, "y"), numberOf(word, "font-size")];
  const length = measureText(word.text, size, word.attributes["font-weight"] === "bold");
  const share = { middle: 0.5, end: 1 }[word.attributes["text-anchor"] ?? ""] ?? 0;
  if (word.attributes["transform"] !== undefined)
    return { left: x - 0.75 * size, right: x + 0.2 * size, top: y - length / 2, bottom: y + length / 2 };
  const left = x - share * length;
  return { left, right: left + length, top: y - 0.72 * size, bottom: y + 0.2 * size };
}

/** Words that leave the paper or meet others. */
export function misplacedWords(svg: Drawn): string[] {
  const [width, height] = [numberOf(svg, "width"), numberOf(svg, "height")];
  const boxes = wordsOf(svg).map((word) => ({ text: word.text, ...boxOf(word) }));
  const outside = boxes.filter((box) => box.left < 0 || box.right > width || box.top < 0 || box.bottom > height);
  const meeting = boxes.flatMap((one, index) =>
    boxes
      .slice(index + 1)
      .filter(
        (other) => one.left < other.right && other.left < one.right && one.top < other.bottom && other.top < one.bottom,
      )
      .map((other) => `${one.text} / ${other.text}`),
  );
  return [...outside.map(({ text }) => `${text} leaves the paper`), ...meeting];
}
