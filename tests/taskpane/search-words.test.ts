import { describe, expect, it } from "vitest";
import { findByWords, tradeWords } from "../../src/taskpane/search-words";
import { functionEntries, settingEntries } from "./file-in-memory";

const functions = functionEntries.map(({ id, brief }) => ({ name: id, text: brief }));
const settings = settingEntries.map(({ label, means }) => ({ name: label, text: means }));
const find = (words: string): string[] => findByWords(words, [...functions, ...settings]).map(({ name }) => name);

describe("the trade's words", () => {
  it.each([
    ["blower door", "TESTRESULT"],
    ["ACH50", "AIRCHANGERATE"],
    ["air changes", "AIRCHANGERATE"],
    ["How big a hole?", "HOLEDIAMETER"],
    ["how big a hole", "TARGETGAP"],
    ["leakage area", "LEAKAGEAREA"],
    ["wind", "WINDPRESSURE"],
    ["wind", "wind speed"],
    ["altitude", "BAROMETRICPRESSURE"],
    ["altitude", "altitude"],
    ["tape", "LEAKAGEDIFFERENCE"],
    ["chimney effect", "STACKPRESSURE"],
    ["gauge accuracy", "gauge accuracy"],
    ["blower door accuracy", "flow calibration uncertainty"],
    ["which fan", "FANDEMAND"],
    ["will it pass", "FINALFORECAST"],
    ["cfm50", "ONEPOINTFLOW"],
  ])("“%s” finds %s", (words, name) => {
    expect(find(words)).toContain(name);
  });

  it("leave out what lacks one of the words, and nothing without a word", () => {
    expect(find("chimney effect")).not.toContain("WINDPRESSURE");
    expect(find("no such thing anywhere")).toEqual([]);
    expect(find("  ")).toHaveLength(functions.length + settings.length);
  });

  it("are those of functions and settings that exist, in small letters, and every function has some", () => {
    const names = [...functions, ...settings].map(({ name }) => name);
    expect(Object.keys(tradeWords).filter((name) => !names.includes(name))).toEqual([]);
    expect(functions.filter(({ name }) => !Object.hasOwn(tradeWords, name))).toEqual([]);
    const words = Object.values(tradeWords).flat();
    expect(words.filter((word) => word !== word.toLowerCase())).toEqual([]);
  });
});
