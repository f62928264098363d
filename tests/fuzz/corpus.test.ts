import { afterAll, beforeAll, describe, expect, it } from "vitest";
import { corpusNames, corpusWorkbook } from "./corpus/corpus";
import { allWays, mainWays } from "./runs/commands";
import { buildHelper } from "./runs/in-process";
import { Trial } from "./trial";

let trial: Trial;
let helper: ReturnType<typeof buildHelper>;
beforeAll(() => {
  helper = buildHelper();
  trial = new Trial(helper.file);
});
afterAll(() => {
  trial.close();
  helper.remove();
});

/** Each of these also as a user starts it, by a way that changes from workbook to workbook. */
const names = corpusNames().map((name, index) => ({ name, program: allWays[index % allWays.length]! }));

describe("what once broke a command goes through every one of them", () => {
  it.each(names)("$name", async ({ name, program }) => {
    const outcomes = await trial.run(corpusWorkbook(name).bytes, mainWays, [program]);
    const faults = outcomes.flatMap(({ way, as, faults: list }) => list.map((fault) => ({ way, as, ...fault })));
    expect(faults).toEqual([]);
    expect(outcomes).toHaveLength(mainWays.length + 1);
  });
});
