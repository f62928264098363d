import type { Inspector } from "../../book/inspector";
import { placeKey, type Place, type SheetArea } from "../../book/area";
import type { Finding } from "../finding";
import { findJudgedRuns } from "../result-steps";
import type { Check, Review } from "../review";
import { saysPass, type Verdict } from "../verdicts";
import { askFunction, type EnteredRun } from "../../book/tests/entered-runs";
import { formatList } from "../../formatting";
import { shorten } from "../../file/problem";

const outcomeColumns = { check: 0, outcome: 5, weight: 6 } as const;

/** Verdicts that ignore whether the measured test is valid, or pass one that is not. */
export const checkVerdictValidity: Check = (review) => {
  const judged = new Map<EnteredRun, readonly string[]>();
  return review.verdicts.flatMap((verdict) => reviewVerdict(review, verdict, judged));
};

function reviewVerdict(review: Review, verdict: Verdict, judged: Map<EnteredRun, readonly string[]>): Finding[] {
  const { view } = review;
  const runs = listRunsBehind(review, verdict);
  if (runs.length === 0 || verdict.cells.length === 0) return [];
  const checked = listRunsUnder(review, listJudgedForValidity(review, verdict), runs);
  const findings = checked.length === runs.length ? [] : [reportMissingValidity(review, verdict, runs, checked)];
  const pass = verdict.cells.find(({ word }) => saysPass(word));
  if (!pass) return findings;
  for (const run of runs) {
    const broken = judged.get(run) ?? listBrokenChecks(review, run);
    judged.set(run, broken);
    if (broken.length === 0) continue;
    findings.push({
      kind: "verdict on an invalid test",
      severity: "error",
      decides: true,
      place: view.formatAddress(pass.place),
      what: `The verdict is “${shorten(pass.word)}”, but ${run.direction} in ${view.formatArea(run.pressures)} is not valid under its own standard: ${formatList(broken)}.`,
      why: "The standard's conditions are not met, so the number is not a valid result.",
      todo: "Pass the VALIDITYCHECKS table to the verdict; retest, or state the deviation and its reason.",
    });
  }
  return findings;
}

/** The runs that the verdict's result is made of, without those of another stage that it could be. */
function listRunsBehind(review: Review, verdict: Verdict): readonly EnteredRun[] {
  const judgement = review.judgements.find((one) => one.verdict === verdict);
  if (judgement) return findJudgedRuns(review, judgement);
  const behind = review.view.findUpstream(verdict.result?.areas ?? []);
  return review.runs.filter(({ readings }) => readings.some(({ pressure }) => behind.has(placeKey(pressure))));
}

/** What the verdict's validity argument, and the conditions around it, read. */
function listJudgedForValidity({ view }: Review, { call, validity, judged }: Verdict): SheetArea[] {
  const ofNumbers = new Set(judged.map((area) => view.formatArea(area)));
  const around = view.listPrecedents(call.place).filter((area) => !ofNumbers.has(view.formatArea(area)));
  return [...validity.flatMap(({ areas }) => areas), ...around];
}

/** The runs on whose readings areas depend. */
export function listRunsUnder(
  { view }: Review,
  areas: readonly SheetArea[],
  runs: readonly EnteredRun[],
): readonly EnteredRun[] {
  if (areas.length === 0) return [];
  const behind = view.findUpstream(areas);
  return runs.filter(({ readings }) => readings.some(({ pressure }) => behind.has(placeKey(pressure))));
}

const rowsBelow = 3;
const columnsBeside = 8;

function reportMissingValidity(
  { view }: Review,
  { call, validity }: Verdict,
  runs: readonly EnteredRun[],
  checked: readonly EnteredRun[],
): Finding {
  const stated = validity.length > 0 ? "" : findStatementNear(view, call.place);
  const missing = runs.filter((run) => !checked.includes(run));
  const describe = (run: EnteredRun) => `${run.direction} in ${view.formatArea(run.pressures)}`;
  const what =
    checked.length > 0
      ? `The verdict takes the validity of ${formatList(checked.map(describe))} alone, but its result also comes from ${formatList(missing.map(describe))}`
      : validity.length > 0
        ? "The verdict takes the test's validity from text that is not derived from its readings"
        : "The verdict judges the number alone and ignores whether the test is valid";
  return {
    kind: "verdict without validity",
    severity: stated === "" ? "warning" : "note",
    place: view.formatAddress(call.place),
    what: stated === "" ? `${what}.` : `${what}; the sheet says so: “${shorten(stated)}”`,
    why: "A number from a test that does not meet its standard's conditions can pass or fail by chance.",
    todo: "Pass the whole VALIDITYCHECKS table, or the outcome of the checks, to the verdict.",
  };
}

/** A sentence below the verdict saying where validity is judged. */
function findStatementNear(view: Inspector, { sheet, row, column }: Place): string {
  for (let below = row + 1; below <= row + rowsBelow; below++) {
    for (let left = Math.max(0, column - columnsBeside); left <= column; left++) {
      const text = view.readText({ sheet, row: below, column: left });
      if (/\bvalid(ity)?\b/i.test(text) && text.split(" ").length > 4) return text;
    }
  }
  return "";
}

/** The binding checks that the test fails when its readings are judged again. */
export function listBrokenChecks({ view, addIn }: Review, run: EnteredRun): string[] {
  const table = askFunction(view, addIn, "VALIDITYCHECKS", run) ?? [];
  return table
    .filter((row) => row[outcomeColumns.weight] === "binding" && row[outcomeColumns.outcome] === "not met")
    .map((row) => `${String(row[outcomeColumns.check])} (${String(row[2])}, limit ${String(row[3])})`);
}
