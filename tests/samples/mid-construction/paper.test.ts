import { readFileSync } from "node:fs";
import { expect, it } from "vitest";
import { boxOf } from "../../../sample-workbooks/blocks/address";
import { attribute, printAreaOf } from "../package";
import { cellsOf, partsOf, sheetParts } from "../parts";

const parts = partsOf(readFileSync(new URL("../../../sample-workbooks/mid-construction.xlsx", import.meta.url)));
const workbook = parts.get("xl/workbook.xml") ?? "";
const styles = parts.get("xl/styles.xml") ?? "";

/** Points between the margins of A4; a column of width 1 is 7 pixels of 0.75 points. */
const room = { portrait: 8.27 * 72 - 86.4, landscape: 11.69 * 72 - 86.4 } as const;
const pointsOfWidth = 7 * 0.75;

const elements = (list: string, element: string) =>
  [
    ...(new RegExp(`<${list}[ >].*?</${list}>`, "s").exec(styles)?.[0] ?? "").matchAll(
      new RegExp(`<${element}[ />].*?(?:(?<=/)>(?=<${element}|</${list})|</${element}>)`, "gs"),
    ),
  ].map(([text]) => text);
const sizes = elements("fonts", "font").map((font) => Number(/<sz val="([\d.]+)"/.exec(font)?.[1]));
const fontOf = elements("cellXfs", "xf").map((format) => Number(attribute(format, "fontId")));

it.each([
  "Overview",
  "House and instruments",
  "Leak register",
  "Tape and retest",
  "Ranking and totals",
  "Trade sheet",
  "Gap and forecast",
])("%s prints at its full size, with no letters below 8 pt", (name) => {
  const tabs = sheetParts(parts);
  const index = tabs.findIndex((tab) => tab.name === name);
  const { xml } = tabs[index]!;
  const widths = [...xml.matchAll(/<col [^>]*>/g)].flatMap(([column]) => {
    const [from, to] = [Number(attribute(column, "min")), Number(attribute(column, "max"))];
    return Array.from({ length: to - from + 1 }, () => Number(attribute(column, "width")));
  });
  const orientation = /<pageSetup [^>]*orientation="(\w+)"/.exec(xml)?.[1] as keyof typeof room;
  const titles = new RegExp(`<definedName name="_xlnm.Print_Titles" localSheetId="${index}">([^<]*)<`).exec(
    workbook,
  )?.[1];
  const areas = [...printAreaOf(workbook, index).matchAll(/!\$?([A-Z]+)\$?(\d+):\$?([A-Z]+)\$?(\d+)/g)].map(
    ([, left, top, right, bottom]) => boxOf(`${left}${top}:${right}${bottom}`),
  );
  expect(areas.length).toBeGreaterThan(0);
  for (const { left, right } of areas) {
    const repeated = titles?.includes("$B:$B") && left > 1 ? widths[1]! : 0;
    const width = widths.slice(left, right + 1).reduce((sum, one) => sum + one, repeated);
    expect(width * pointsOfWidth, `columns ${left} to ${right}`).toBeLessThanOrEqual(room[orientation]);
  }
  if (attribute(/<pageSetup [^>]*>/.exec(xml)?.[0] ?? "", "fitToHeight") === "1") {
    const heights = new Map(
      [...xml.matchAll(/<row [^>]*>/g)].map(([row]) => [Number(attribute(row, "r")), Number(attribute(row, "ht"))]),
    );
    const { top, bottom } = areas[0]!;
    const height = Array.from({ length: bottom - top + 1 }, (_, row) => heights.get(top + 1 + row) || 15);
    const across = { portrait: room.landscape, landscape: room.portrait } as const;
    expect(height.reduce((sum, one) => sum + one, 0)).toBeLessThanOrEqual(across[orientation]);
  }
  const small = cellsOf(xml).filter(({ style }) => !(sizes[fontOf[style]!]! >= 8));
  expect(small.map(({ address }) => address)).toEqual([]);
  expect(xml).toMatch(/<oddFooter>[^<]*&amp;8/);
});
