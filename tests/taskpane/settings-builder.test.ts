import { describe, expect, it } from "vitest";
import {
  composeChecks,
  composeSettingsCells,
  type FilledSetting,
  listSettings,
  refusesLabel,
} from "../../src/taskpane/settings-builder";
import type { Units } from "../../src/taskpane/entries";
import type { Session } from "../../src/taskpane/session";
import { slow } from "../time-outs";
import { functionEntries, openSession, settingEntries } from "./file-in-memory";

const fill = (label: string, text: string): FilledSetting => ({
  setting: settingEntries.find((setting) => setting.label === label)!,
  text,
});

const place = { sheet: "Sheet1", row: 0, column: 0, rows: 1, columns: 1 };

/** What the functions say against the values, as the builder shows it. */
async function check(session: Session, units: Units, ...filled: readonly FilledSetting[]): Promise<string> {
  for (const formula of composeChecks(functionEntries, filled, units)) {
    const { problem } = await session.preview(place, formula);
    if (refusesLabel(problem, filled)) return problem;
  }
  return "";
}

describe("a settings block", { timeout: slow }, () => {
  it("holds labels as texts and values as numbers, whichever way they are typed", () => {
    const filled = [
      fill("volume", "480,5"),
      fill("indoor humidity", "45 %"),
      fill("standard", "ISO 9972"),
      fill("altitude", ""),
    ];
    expect(listSettings(filled, "SI")).toEqual([
      ["volume", 480.5],
      ["indoor humidity", 0.45],
      ["standard", "ISO 9972"],
    ]);
    expect(listSettings(filled, "IP")[0]).toEqual(["units", "IP"]);
    expect(listSettings([fill("units", "SI L/s")], "IP")).toEqual([["units", "SI L/s"]]);
  });

  it("enters a day so that every Excel shows a day, and the functions get its number", () => {
    const filled = [fill("test date", "2026-11-30")];
    expect(composeSettingsCells(filled, "SI")).toEqual([["test date", "=DATE(2026,11,30)"]]);
    expect(listSettings(filled, "SI")).toEqual([["test date", 46356]]);
  });

  it("is accepted with every label’s example and every word that it takes, in the units of the block", async () => {
    const session = openSession();
    const refused: string[] = [];
    for (const units of ["SI", "IP"] as const)
      for (const setting of settingEntries)
        for (const text of new Set([String(setting.example[units]), ...setting.choices.map(({ word }) => word)])) {
          const problem = await check(session, units, { setting, text });
          if (problem !== "") refused.push(`${setting.label} ${text}: ${problem}`);
        }
    expect(refused).toEqual([]);
  });

  it("is not held to the readings of the check, which are not those of the block", async () => {
    const filled = [
      fill("columns", "time, pressure, flow"),
      fill("openings", "AAB"),
      fill("fan exponent uncertainty", "0.1;0.2"),
    ];
    expect(await check(openSession(), "SI", ...filled)).toBe("");
  });

  it("is refused in the function's own words, which name the label", async () => {
    expect(await check(openSession(), "SI", fill("volume", "-3"))).toContain("volume");
    expect(await check(openSession(), "SI", fill("gauge accuracy", "one percent"))).toContain("gauge accuracy");
    expect(await check(openSession(), "SI", fill("storeys", "9"), fill("volume", "480"))).toContain("storeys");
  });
});
