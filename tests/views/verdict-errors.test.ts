import { expect, it } from "vitest";
import { openSession } from "../taskpane/file-in-memory";

const call = (given: string) =>
  `<row r="1"><c r="A1" t="str"><f>_xldudf_STILLAIR_PASSFAIL(${given})</f><v></v></c></row>`;

it("states no level of an interval whose uncertainty is typed", async () => {
  const [verdict] = (await openSession(call("0.5,0.6,0.05")).open()).verdicts;
  expect(verdict?.interval).toBeDefined();
  expect(verdict?.confidence).toBeUndefined();
});

it.each([
  ["0.5,0.6", "pass"],
  ['"much",0.6', "#VALUE!"],
  ["B1,0.6", ""],
])("the word of a verdict on %s is %j: an error is no test that is still to be made", async (given, word) => {
  const { verdicts } = await openSession(call(given)).open();
  expect(verdicts.map((verdict) => verdict.word)).toEqual([word]);
});
