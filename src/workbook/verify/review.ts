import { type Call, findFilledArea } from "../book/add-in-calls";
import { areaOf, type Place, placeKey } from "../book/area";
import { Inspector } from "../book/inspector";
import type { EnteredRun } from "../book/tests/entered-runs";
import { MethodFigures } from "../book/tests/method-figures";
import { TestsInBook } from "../book/tests/tests-in-book";
import type { OpenedWorkbook } from "../file/open";
import { type SheetLooks, readSheetLooks } from "../file/appearance/sheet-appearance";
import { readRelationships } from "../file/sheet/relationships";
import type { AddInCall, AddInRegistry } from "../formula/calls/add-in";
import { rememberAnswers } from "../formula/calls/remember-answers";
import { evaluateBook } from "../formula/evaluate";
import type { Evaluation } from "../formula/evaluation";
import { reduceLimits } from "../formula/work-limits";
import { withFrozenFormulas } from "../issue-copy/mark";
import type { Book } from "../model";
import type { Finding } from "./finding";
import { blank, BlankWatch, withBlanksAsNull } from "./blank-watch";
import type { Twins } from "../book/like-formulas";
import { findJudgements, type Judgement } from "./judgements";
import { type Verdict, findVerdicts } from "./verdicts";

/** A workbook under review: everything the checks use, gathered once. */
export interface Review {
  readonly opened: OpenedWorkbook;
  /** As opened; in an issue copy, with the frozen formulas restored. */
  readonly book: Book;
  readonly addIn: AddInRegistry;
  readonly state: ReviewState;
  /** Blank cells passed to the add-in as blanks. */
  readonly view: Inspector;
  /** The same with blank cells passed as 0, as some versions of Excel do. */
  readonly withZeros: Evaluation;
  readonly calls: readonly Call[];
  readonly callAt: ReadonlyMap<number, Call>;
  readonly tests: TestsInBook;
  /** The runs of the tests as entered. */
  readonly runs: readonly EnteredRun[];
  readonly verdicts: readonly Verdict[];
  /** What the method computes from the runs. */
  readonly figures: MethodFigures;
  /** Every decision on a result, by PASSFAIL or by a comparison. */
  readonly judgements: readonly Judgement[];
  readonly twins: readonly Twins[];
  /** Every cell that a verdict depends on, or if there is none, that an add-in cell depends on. */
  readonly chain: ReadonlyMap<number, Place>;
  readonly isInChain: (place: Place) => boolean;
}

/** One question about a workbook; returns the findings. */
export type Check = (review: Review) => Finding[];

export function prepareReview(opened: OpenedWorkbook, functions: AddInRegistry, now: Date): Review {
  const addIn = rememberAnswers(functions);
  // In an issue copy the listed formulas are put back into their cells, so that the frozen values are checked against them.
  const book = withFrozenFormulas(opened.book);
  const watch = new BlankWatch(addIn);
  const recorded: AddInCall[] = [];
  const evaluation = evaluateBook(book, { addIn: watch.functions, blankMark: blank, now, calls: recorded });
  const view = new Inspector(book, evaluation, addIn, now);
  const withZeros = watch.matters
    ? evaluateBook(book, { addIn, now, blankAsZero: true, limits: reduceLimits(evaluation.work) })
    : evaluation;
  const tests = new TestsInBook(view, recorded.map(withBlanksAsNull));
  const { calls, twins } = tests;
  const verdicts = findVerdicts(view, calls);
  const figures = new MethodFigures(view, addIn, tests);
  const judgements = findJudgements({ view, tests, figures, verdicts });
  const roots = verdicts.length > 0 ? verdicts.map(({ call }) => call) : calls;
  const chain = view.findUpstream(roots.flatMap((call) => [areaOf(call.place), findFilledArea(view, call)]));
  return {
    opened,
    book,
    addIn,
    state: readReviewState(opened),
    view,
    withZeros,
    calls,
    callAt: new Map(calls.map((call) => [placeKey(call.place), call])),
    tests,
    runs: tests.entered,
    verdicts,
    figures,
    judgements,
    twins,
    chain,
    isInChain: (place) => chain.has(placeKey(place)),
  };
}

/** What a reviewer needs from a workbook beyond its cells. */
interface ReviewState {
  readonly sheets: readonly SheetLooks[];
  /** "auto", "autoNoTable" or "manual" (ECMA-376 part 1, 18.2.2). */
  readonly calculationMode: string;
  /** Linked workbooks. */
  readonly externalLinks: number;
}

/** Reads styles, protection, conditional formats, calculation mode and links in a second pass: the book omits them. */
function readReviewState(opened: OpenedWorkbook): ReviewState {
  const { archive } = opened;
  const main = readRelationships(archive, "").find(({ kind }) => kind === "officeDocument")?.target;
  let calculationMode = "auto";
  if (main !== undefined) {
    archive.read(main, {
      open(name, attributes) {
        if (name === "calcPr") calculationMode = attributes["calcMode"] ?? "auto";
      },
      close() {},
    });
  }
  const links = main === undefined ? [] : readRelationships(archive, main);
  return {
    sheets: readSheetLooks(opened),
    calculationMode,
    externalLinks: links.filter(({ kind }) => kind === "externalLink").length,
  };
}
