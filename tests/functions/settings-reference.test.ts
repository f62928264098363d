import { describe, expect, it } from "vitest";
import { examples } from "../../src/functions/examples";
import * as functions from "../../src/functions/index";
import { labels } from "../../src/functions/settings/labels";
import { findSettings, inEachSystem, type Setting, settingsReference } from "../../src/functions/settings/reference";
import functionList from "../../src/functions/functions.json";

type Row = readonly (string | number)[];
type Call = (settings: readonly Row[]) => unknown;

const code = new Map(
  Object.entries(functions).map(([name, body]) => [name.toUpperCase(), body as (...given: unknown[]) => unknown]),
);

/** A call of a function with its own example's arguments or others; settings given stand before its own of the same label. */
function callOf(id: string, own: readonly Row[], given: readonly unknown[] = examples[id]!.arguments): Call {
  const parameters = functionList.functions.find((entry) => entry.id === id)!.parameters;
  const place = parameters.findIndex(({ name }) => name === "settings");
  const cells = parameters.map((parameter, index) => {
    const value = given[index] ?? null;
    return "dimensionality" in parameter && value !== null && !Array.isArray(value) ? [[value]] : value;
  });
  return (settings) => {
    const named = new Set(settings.map(([label]) => label));
    return code.get(id)!(...cells.with(place, [...settings, ...own.filter(([label]) => !named.has(label))]));
  };
}

const test: Row[] = [
  ["volume", 480],
  ["envelope area", 410],
  ["floor area", 185],
  ["indoor temperature", 21],
  ["outdoor temperature", 3],
  ["flow basis", "indicated at calibration density"],
];
const planned: Row[] = [...test.slice(0, 5), ["quantity", "air change rate"]];
const log = [0, 5, 10, 15, 20, 25, 30, 35].map((time) => [time, -50 + (time % 2) / 10, 100 + time / 10, "fan running"]);
const ofLog: Row[] = [
  ["columns", "time, pressure, fan pressure, state"],
  ["fan coefficient", 30],
  ["fan exponent", 0.5],
];
const house: Row[] = [
  ["storeys", 2],
  ["shelter class", 3],
  ["flue", "yes"],
  ["foundation", "crawl space"],
  ["exposed sides", "one"],
  ["shielding", "none"],
  ["supply flow", 60],
  ["floor area", 185],
  ["building height", 7.5],
  ["weather and shielding factor", 0.6],
];
/** With times in front of the pressures. */
const timed = (id: string) =>
  examples[id]!.arguments.map((value, place) =>
    place === 1 ? (value as number[][]).map(([pressure], index) => [3 + 4 * index, pressure]) : value,
  );
const ofTimes: Row[] = [...test, ["time of baseline before", 1], ["time of baseline after", 22]];
const ofWind: Row[] = [...test, ["wind speed", 1], ["wind place", "weather station"], ["test date", 46_350]];
const ofBudget: Row[] = [...ofWind, ["building height", 6], ["fan pressure at lowest flow", 40]];
const ofArea: Row[] = [
  ...planned,
  ["quantity", "leakage area per envelope area"],
  ["leakage area definition", "ISO 9972 10 Pa"],
].filter(([label, value]) => label !== "quantity" || value !== "air change rate");

/** Calls in which the settings of a function come into play. */
const calls: Readonly<Record<string, readonly Call[]>> = {
  ...Object.fromEntries(
    ["TESTRESULT", "RESULTCARD", "VALIDITYCHECKS", "UNCERTAINTYBUDGET"].map((id) => [
      id,
      [
        callOf(id, test),
        callOf(id, ofTimes, timed(id)),
        callOf(id, ofBudget),
        callOf(id, [...ofWind, ["technique", "weighted with expected exponent"]]),
        callOf(id, [...ofWind, ["standard", "EN 13829"]]),
      ],
    ]),
  ),
  REFERENCECOEFFICIENT: [callOf("REFERENCECOEFFICIENT", [])],
  LOGSTATIONS: [callOf("LOGSTATIONS", []), callOf("LOGSTATIONS", ofLog, [log])],
  ...Object.fromEntries(
    ["TARGETGAP", "FINALFORECAST", "ALLOWEDLEAKAGE", "FANDEMAND"].map((id) => [
      id,
      [planned, ofArea].map((own) => callOf(id, own)),
    ]),
  ),
  INFILTRATIONFLOW: ["basic", "enhanced", "EN ISO 13789", "ASHRAE 62.2"].map((model) =>
    callOf("INFILTRATIONFLOW", house, [model, ...examples["INFILTRATIONFLOW"]!.arguments.slice(1)]),
  ),
};

/** What a person would have typed: a day becomes Excel's number. */
function typed({ unit, example }: Setting, system: "SI" | "IP" | "SI L/s"): string | number {
  const value = example[system];
  return unit[system] === "date" ? Date.parse(`${value}T00:00Z`) / 86_400_000 + 25_569 : value;
}

function attempt(call: Call, settings: readonly Row[]): { readonly result?: unknown; readonly refusal?: string } {
  try {
    return { result: call(settings) };
  } catch (refusal) {
    return { refusal: (refusal as Error).message };
  }
}

/** Results without further settings, computed once. */
const results = new Map<Call, ReturnType<typeof attempt>>();
function usual(call: Call): ReturnType<typeof attempt> {
  const known = results.get(call) ?? attempt(call, []);
  results.set(call, known);
  return known;
}

const named = settingsReference.map((setting) => [setting.label, setting] as const);

describe("the reference of settings", () => {
  it("holds every label of the functions, each once", () => {
    expect(settingsReference.map(({ label }) => label).sort()).toEqual(Object.keys(labels).sort());
  });

  it("knows calls of every function that takes settings", () => {
    const takers = functionList.functions.filter(({ parameters }) =>
      parameters.some(({ name }) => name === "settings"),
    );
    expect(Object.keys(calls).sort()).toEqual(takers.map(({ id }) => id).sort());
    for (const [id, [call]] of Object.entries(calls)) expect(attempt(call!, []).refusal, id).toBeUndefined();
  });

  it.each(named)("%s has a meaning, a unit in each system, a default or none, and a function", (label, setting) => {
    const { means, unit, ifBlank, example, words, functions: readers } = setting;
    expect(means.length).toBeGreaterThan(5);
    expect(means).not.toBe(label);
    for (const values of [unit, ifBlank, example])
      for (const value of Object.values(values)) expect(String(value)).not.toBe("");
    expect(readers.length).toBeGreaterThan(0);
    for (const { word, meaning } of words) if (word !== "yes" && word !== "no") expect(meaning, word).toBeTruthy();
    expect(words.map(({ word }) => word)).toEqual(
      "words" in labels[label as "units"] ? labels[label as "units"].words : [],
    );
  });

  it.each(named)("the example of %s is accepted by the functions that read it", (label, setting) => {
    for (const system of ["SI", "IP"] as const) {
      const given: Row[] = [[label, typed(setting, system)]];
      // The other settings of these calls are in SI units; with IP units only the label itself can be read.
      for (const id of setting.functions) {
        const refusals = calls[id]!.map(
          (call) => attempt(call, system === "SI" ? given : [...given, ["units", system]]).refusal,
        );
        if (system === "SI") expect(refusals, id).toContain(undefined);
        else
          expect(
            refusals.filter((refusal) => !refusal?.includes(`: ${label}: `)),
            id,
          ).not.toEqual([]);
      }
    }
  });

  it.each(named)("no function reads %s that the reference does not name", (label, setting) => {
    for (const [id, ofFunction] of Object.entries(calls)) {
      if (setting.functions.includes(id) && !setting.isRecord) continue;
      for (const call of ofFunction) expect(attempt(call, [[label, typed(setting, "SI")]]), id).toEqual(usual(call));
    }
  });

  it.each(
    named.filter(
      ([, { ifBlank, words }]) => !isNaN(Number(ifBlank.SI)) || words.some(({ word }) => word === ifBlank.SI),
    ),
  )("what counts while %s is blank is what the reference says", (label, { functions: readers, ifBlank }) => {
    const value = isNaN(Number(ifBlank.SI)) ? ifBlank.SI : Number(ifBlank.SI);
    for (const id of readers)
      for (const call of calls[id]!)
        expect(numbersOf(attempt(call, [[label, value]])), id).toEqual(numbersOf(attempt(call, [[label, ""]])));
  });

  it("is searched by words in label, meaning, words and functions", () => {
    expect(findSettings("gauge accuracy").map(({ label }) => label)).toEqual(["gauge accuracy", "fan gauge accuracy"]);
    expect(findSettings("weather station").map(({ label }) => label)).toContain("wind place");
    expect(findSettings("logstations tolerance").map(({ label }) => label)).toEqual(["tolerance"]);
    expect(findSettings("smoke")).toEqual([]);
  });

  it("does not repeat what systems have in common", () => {
    expect(inEachSystem({ SI: "Pa", "SI L/s": "Pa", IP: "Pa" })).toBe("Pa");
    expect(inEachSystem({ SI: "m³/h", "SI L/s": "L/s", IP: "cfm" })).toBe("m³/h (SI L/s: L/s; IP: cfm)");
  });
});

/** The numbers of a result; texts say whether a value was given or assumed. */
function numbersOf({ result, refusal }: ReturnType<typeof attempt>): unknown {
  return refusal ?? [result].flat(2).filter((cell) => typeof cell === "number");
}
