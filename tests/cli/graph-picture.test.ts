import { describe, expect, it } from "vitest";
import { renderPicture } from "../../src/cli/graph/picture";
import { drawLeakageGraph } from "../../src/workbook/graph/leakage-graph";
import { cases } from "../workbook/graph/cases";
import { readPng } from "../workbook/graph/png";
import { marksOf, numberOf, readSvg, wordsOf } from "../workbook/graph/read-svg";
import { slow } from "../time-outs";

describe("the picture", { timeout: slow }, () => {
  const data = cases["excluded"] as (typeof cases)[string];
  const drawing = drawLeakageGraph(data);
  const svg = readSvg(drawing);

  it("has twice the drawing's size, its marks in their colours, and letters where words stand", async () => {
    const picture = readPng(await renderPicture(drawing));
    expect([picture.width, picture.height]).toEqual([2 * numberOf(svg, "width"), 2 * numberOf(svg, "height")]);
    const at = (x: number, y: number) => picture.at(Math.round(2 * x), Math.round(2 * y));
    for (const { says, x, y, filled } of marksOf(svg).filter((mark) => mark.filled)) {
      expect(filled).toBe(true);
      expect([says, at(x, y)]).toEqual([says, says.startsWith("depress") ? "0E4A56" : "B4581A"]);
    }
    expect(at(1, 1)).toBe("FFFFFF");
    for (const word of wordsOf(svg).filter(
      ({ attributes }) => attributes["transform"] === undefined && attributes["text-anchor"] === undefined,
    )) {
      let inked = 0;
      for (let x = 0; x < 30; x++)
        for (let y = 0; y < 10; y++) if (at(numberOf(word, "x") + x / 2, numberOf(word, "y") - y) !== "FFFFFF") inked++;
      expect([word.text, inked > 20]).toEqual([word.text, true]);
    }
  });
});
