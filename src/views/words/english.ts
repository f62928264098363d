import type { RefusalData } from "../desk/refusal";

/** Why something cannot be done, by its key. */
export type RefusalWords = Readonly<Record<RefusalData["key"], (...given: readonly string[]) => string>>;

/** Every sentence of the views: a translation is a file of this shape. */
export type Words = typeof english;

/** English. What the workbook says stays in its own words, the findings of the review and the details of a trace in English. */
export const english = {
  name: "English",
  locale: "en-GB",
  title: "Review of an airtightness workbook",
  motto: "From the verdict back to the readings. Nothing leaves this computer.",
  choose: "Choose workbooks",
  chooseFolder: "Choose a folder",
  drop: "or drop .xlsx files here",
  reading: (name: string, done: number, of: number) =>
    `Reading and recalculating ${name}${of > 1 ? ` (${done + 1} of ${of})` : ""}`,
  tooLarge: (name: string, megabytes: string) => `${name} has ${megabytes} MB; this page reads up to 64 MB.`,
  notRead: (name: string, problem: string) => `${name} could not be read: ${problem}`,
  working: "Working …",
  noFiles: "There is no .xlsx file among these.",
  cancel: "Stop",
  stopped: "Stopped.",
  /** Said where the review and the traces speak, which is in English; empty in English. */
  inEnglish: "",
  language: "Language",
  back: "All workbooks",
  failed: (problem: string) => `That did not work: ${problem}`,
  offline: "Keep this page for use without a network",
  offlineReady: "Kept. It opens without a network now.",
  offlineFailed:
    "It cannot be kept here: the files reader-offline.js and reader.webmanifest are not served beside it. Save the page as a file instead; that opens without a network.",

  workbooks: "Workbooks",
  workbook: "Workbook",
  waiting: "waiting",
  worstFirst: "Worst first: unreadable, then by verdict and by what differs from the stored values.",

  tabs: {
    verdict: "Verdict",
    findings: "Findings",
    trace: "Trace",
    sheets: "Sheets",
    graph: "Graph",
    trial: "What if",
    compare: "Compare",
    files: "Hand over",
  },

  verdict: {
    verdict: "Verdict",
    verdicts: (count: number) => `${count} verdicts`,
    more: (count: number) => `… and ${count} more`,
    none: "No cell of this workbook gives a verdict.",
    open: "not tested yet",
    words: {
      pass: "Pass",
      fail: "Fail",
      "not proven": "Not proven",
      "not valid": "Not valid",
      open: "Open",
    } as Record<string, string>,
    of: (label: string) => `Verdict on ${label}`,
    result: "Result",
    limit: "Limit",
    /** The level may be unknown: "". */
    interval: (level: string) => (level === "" ? "Interval" : `${level} interval`),
    bar: (result: string, level: string, lower: string, upper: string, limit: string) =>
      `Result ${result}, ${`${level} interval`.trim()} from ${lower} to ${upper}, limit ${limit}.`,
    barKey: (level: string) =>
      `The line begins at 0. Upright: the result, shaded its ${`${level} interval`.trim()}; dashed: the limit.`,
    barKeyWithout: "The line begins at 0. Upright: the result; dashed: the limit.",
    barWithout: (result: string, limit: string) => `Result ${result}, limit ${limit}.`,
    noInterval: "The verdict's formula is not given the expanded uncertainty, so no interval is shown.",
    conditions: "Conditions of a valid test",
    noConditions: "The verdict depends on no table of validity checks.",
    metCount: (met: number, of: number) => `${met} of ${of} binding conditions are met.`,
    condition: "Condition",
    measured: "Measured",
    required: "Limit",
    outcome: "Outcome",
    outcomes: {
      met: "met",
      "not met": "not met",
      "cannot be judged": "cannot be judged",
    } as Record<string, string>,
    binding: "binding",
    advisory: "advisory",
    allConditions: (count: number) => `all ${count} conditions`,
    summary: "Summary, in the workbook's own words",
    quantity: "Quantity",
    value: "Value",
    unit: "Unit",
    recalculation: "Recalculation",
    recomputed: (evaluated: number, of: number) =>
      `${evaluated} of ${of} formulas were recalculated here, without Excel.`,
    same: "Every result is what the file says.",
    differ: (count: number) =>
      count === 1 ? "One result differs from what the file says." : `${count} results differ from what the file says.`,
    stored: "In the file",
    computed: "Recalculated",
    cell: "Cell",
    why: "Reason",
    notEvaluated: (count: number) =>
      count === 1 ? "One formula could not be recalculated." : `${count} formulas could not be recalculated.`,
    issued: (day: string, version: string) => `This is an issue copy of ${day}, method ${version}.`,
    responsibility: "This page recalculates; the result remains the tester's responsibility.",
  },

  findings: {
    start: "Review the workbook",
    about:
      "The review recalculates the workbook several times and looks for formulas typed over, readings left out, units mixed up and verdicts that do not follow from the results.",
    running: (done: number, of: number) => `Reviewing: step ${done} of ${of}`,
    severities: { error: "Error", warning: "Warning", note: "Note" },
    counts: (errors: number, warnings: number, notes: number) =>
      `${errors} ${errors === 1 ? "error" : "errors"}, ${warnings} ${warnings === 1 ? "warning" : "warnings"}, ${notes} ${notes === 1 ? "note" : "notes"}.`,
    none: "No errors and no warnings.",
    legend:
      "Error: the workbook contradicts itself or the method. Warning: a person must look. Note: for information. No program can find a reading that was invented with care.",
    why: "Why it matters",
    todo: "What to do",
    turns: "changes the verdict",
    also: (count: number) => (count === 1 ? "The same in one more place" : `The same in ${count} more places`),
    related: (count: number) =>
      count === 1 ? "One more finding from this cause" : `${count} more findings from this cause`,
    checked: "What was checked",
    beyond: "What no program can find",
    filter: "Show",
    all: "all",
    bySheet: (sheet: string) => `sheet ${sheet}`,
  },

  trace: {
    about: "Where a figure comes from, step by step back to what was typed in.",
    cell: "Cell",
    go: "Trace",
    example: "such as Results!F45",
    unknown: (cell: string) => `There is no cell ${cell} in this workbook.`,
    showInSheet: "Show in its sheet",
    reads: "It reads",
    table: "The whole table",
    cells: "Its cells",
    inputs: (count: number) => `Back to ${count} typed ${count === 1 ? "cell" : "cells"}`,
    path: "Path",
  },

  sheets: {
    about: "The workbook as it looks. Choose a cell to see its formula and to trace it.",
    hidden: "hidden",
    key: "Corner on the left: input. Corner on the right: computed by the add-in. Wavy line: an error.",
    nothing: "No cell chosen.",
    traceThis: "Trace this cell",
  },

  graph: {
    none: "No test in this workbook can be drawn.",
    which: "Test",
    about: "Choose a reading, in the graph or in the list, to see its cell.",
    readings: "Readings",
    line: "Run",
    pressure: "Induced pressure",
    flow: "Flow",
    used: "Used",
    yes: "yes",
    no: "no",
    zoom: "Size",
  },

  trial: {
    about: "Change what was typed in and see what it would change. Nothing is saved unless you ask for a copy.",
    find: "Find an input by its label",
    found: (count: number) => `${count} ${count === 1 ? "input" : "inputs"}`,
    none: "This workbook has no cells to type into.",
    add: "Change",
    changes: "Changes",
    now: "Now",
    remove: "Remove",
    run: "Recalculate",
    before: "Before",
    after: "After",
    changed: (count: number) => `${count} ${count === 1 ? "result changes" : "results change"}.`,
    same: "No figure of the summary changes.",
    verdict: "Verdict",
    save: "Save a copy with these changes",
  },

  compare: {
    about: "Choose a second workbook, for instance the one that was issued. This one counts as the earlier version.",
    choose: "Choose the later version",
    equal: "Nothing differs: inputs, formulas and results are the same.",
    verdicts: "Verdicts that differ",
    inputs: "Inputs that differ",
    formulas: "Formulas that differ",
    results: "Results that differ",
    onlyBefore: "Sheets only in the earlier version",
    onlyAfter: "Sheets only in the later version",
    turns: "Find the difference that changes the verdict",
    turning: (done: number, of: number) => `Trying difference ${done + 1} of ${of}`,
    tried: (tried: number, of: number) =>
      `${tried} of ${of} differences were tried, in the order of the sheets; one of the others may change the verdict too.`,
    turn: "Alone it gives",
    effect: "Effect",
    turned: "changes the verdict",
    kept: "does not change it",
    more: (count: number) => `… and ${count} more.`,
    label: "What",
  },

  files: {
    about: "Files made from this workbook, on this computer.",
    issue: "Issue copy: results without the add-in, formulas listed, sealed with a fingerprint",
    recalculated: "Workbook with every formula recalculated",
    findings: "Review as a page",
    graph: "Graph as a drawing (SVG)",
    picture: "Graph as a picture (PNG)",
    make: "Make",
    made: (name: string) => `${name} is made.`,
    download: (name: string) => `Save ${name}`,
    reviewFirst: "Review the workbook first, under Findings.",
  },

  /** The desk says its refusals in English; a translation says each of them. */
  refusals: undefined as RefusalWords | undefined,
};
