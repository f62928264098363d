import { readFileSync } from "node:fs";
import { describe, expect, it } from "vitest";
import { airDensity, floorArea, pressureStations } from "../../src/functions/index";
import shortcuts from "../../src/taskpane/shortcuts.json";

const protocol = readFileSync("src/taskpane/help/excel-check.md", "utf8");
const guide = readFileSync("src/taskpane/help/excel.md", "utf8");
const steps = [...protocol.matchAll(/^\| (\d+) \| .+ \| (.+) \|[^|]*\|$/gm)].map(([, number, expected = ""]) => ({
  number: Number(number),
  expected,
}));
const expectedAt = (step: number): string => steps.find(({ number }) => number === step)?.expected ?? "";

describe("the half hour in Excel", () => {
  it("has numbered steps, each with what to expect and a place for what was seen", () => {
    expect(steps.map(({ number }) => number)).toEqual(steps.map((_, index) => index + 1));
    expect(steps.length).toBeGreaterThan(25);
    for (const { expected } of steps) expect(expected.length).toBeGreaterThan(1);
  });

  it("takes half an hour by its own headings", () => {
    const words = ["six", "seven", "eight", "nine"];
    const minutes = [...protocol.matchAll(/^## .*: (\w+) minutes$/gm)].map(([, word = ""]) => words.indexOf(word) + 6);
    expect(minutes.reduce((sum, part) => sum + part, 0)).toBe(30);
  });

  it("has a step for every line of what has not been seen, and no step but for those", () => {
    const list = guide.slice(guide.indexOf("## Not seen in Excel"));
    const covered = [...list.matchAll(/^\| .+ \| ([\d, to]+) \|$/gm)].flatMap(([, text = ""]) =>
      text.split(", ").flatMap((part) => {
        const [first = 0, last = first] = part.split(" to ").map(Number);
        return Array.from({ length: last - first + 1 }, (_, index) => first + index);
      }),
    );
    expect([...new Set(covered)].sort((one, other) => one - other)).toEqual(steps.map(({ number }) => number));
  });

  it("expects what the functions give", () => {
    const corners = [
      [0, 0],
      [8, 0],
      [8, 6],
      [0, 6],
    ];
    expect(expectedAt(3)).toMatch(new RegExp(`; ${String(floorArea(corners))}$`));
    const stations = pressureStations([[10]], [[60]], [[6]]) as number[][];
    const [rows, columns] = [stations.length, stations[0]?.length];
    expect(expectedAt(5)).toContain(
      `${rows} rows and ${columns} columns, ${stations[0]?.[0]} to ${stations.at(-1)?.[0]}`,
    );
    expect(() => airDensity([["warm"]])).toThrow(expectedAt(6).replace(/^.*and: /, ""));
  });
});

it("the guide to Excel names the keys of every shortcut", () => {
  const listed = [...guide.matchAll(/^\| \w+ \| `(Ctrl\S+)` \| `(Command\S+)` \|$/gm)].map(([, ctrl, mac]) => [
    ctrl,
    mac,
  ]);
  expect(listed).toEqual(shortcuts.shortcuts.map(({ key }) => [key.default, key.mac.replace("Alt", "Option")]));
});
