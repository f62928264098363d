import * as functions from "../../functions/index";
import metadata from "../../functions/functions.json";
import {
  addPlainSheet,
  buildCellId,
  compareWithStored,
  describeBasis,
  formatCellValue,
  beyondPrograms,
  describeAssurance,
  describeFigure,
  gatherByCause,
  joinPlaces,
  judgeOutcome,
  openWorkbook,
  prepareSheets,
  quoteSheetName,
  readIssueMark,
  registerFunctions,
  type Verification,
  verifyWorkbook,
} from "../../workbook/index";
import type {
  CellPlace,
  ComparisonAnswer,
  FileAnswer,
  GraphAnswer,
  InputAnswer,
  PreviewAnswer,
  ReviewAnswer,
  SheetAnswer,
  TraceAnswer,
  TrialAnswer,
  Turn,
  TypedChange,
  TypedEntry,
  UnboundCall,
  WorkbookAnswer,
} from "./answers";
import { compareVersions, prepareTurns, type TurnSearch } from "./comparison";
import { makeChangedCopy, makeFindingsPage, makeIssueCopy } from "./files";
import { drawGraph, listGraphs, nameGraph } from "./graph";
import type { CellsContent } from "./cells";
import { type Desktop, findPlace, openCells, openDesktop, requireFile } from "./opened";
import { listUnbound, previewEntry, typeEntries } from "./entries";
import { createTracer } from "./trace";
import { Refusal } from "./refusal";
import { listInputs, readSummaryOf, tryOut } from "./trials";
import { describeVerdicts } from "./verdicts";

type Watch = (done: number, of: number) => void;

/**
 * Answers every question that the views ask about workbooks, in plain data that can be sent between threads. It knows neither a document nor a disk,
 * so it runs in a worker of the page, beside Excel, or in a test. What it cannot do it refuses by a Refusal.
 */
export class Desk {
  private readonly addIn = registerFunctions(functions, metadata);
  private readonly desktops = new Map<number, Desktop>();
  private readonly tracers = new Map<number, ReturnType<typeof createTracer>>();
  private readonly sheets = new Map<number, ReturnType<typeof prepareSheets>>();
  /** Of the two versions compared last. */
  private turns: { readonly earlier: Desktop; readonly later: Desktop; readonly search: TurnSearch } | undefined;

  /** Opens and recalculates a workbook under a number that the caller chooses. */
  open(id: number, name: string, bytes: Uint8Array): WorkbookAnswer {
    return this.keep(id, openDesktop(name, bytes, this.addIn));
  }

  /** The same for a workbook of which a program shows the cells only. */
  openCells(id: number, name: string, content: CellsContent): WorkbookAnswer {
    return this.keep(id, openCells(name, content, this.addIn));
  }

  private keep(id: number, desktop: Desktop): WorkbookAnswer {
    this.close(id);
    this.desktops.set(id, desktop);
    return describeWorkbook(desktop);
  }

  close(id: number): void {
    this.desktops.delete(id);
    this.tracers.delete(id);
    this.sheets.delete(id);
    this.turns = undefined;
  }

  trace(id: number, address: string): TraceAnswer {
    const desktop = this.find(id);
    const place = findPlace(desktop, address);
    if (!place) throw Refusal.of("noCell", [address]);
    const tracer = this.tracers.get(id) ?? createTracer(desktop);
    this.tracers.set(id, tracer);
    return tracer(place);
  }

  /** The place of an address; undefined where it is not a cell of the workbook, such as a defined name. */
  locate = (id: number, address: string): CellPlace | undefined => findPlace(this.find(id), address);

  showSheet(id: number, index: number, cell?: CellPlace): SheetAnswer {
    const desktop = this.find(id);
    const { evaluation, addIn, now } = desktop;
    const sheets =
      this.sheets.get(id) ??
      prepareSheets({ opened: requireFile(desktop), evaluation, evaluateOptions: { addIn, now }, set: [] });
    this.sheets.set(id, sheets);
    const { name, html, css } = sheets.write(index);
    const chosen = cell?.sheet === index ? buildCellId(index, cell.row, cell.column) : "";
    return { prefix: `${quoteSheetName(name)}!`, chosen, html, css };
  }

  drawGraph = (id: number, index: number): GraphAnswer => drawGraph(this.find(id), index);

  listInputs = (id: number): InputAnswer[] => listInputs(this.find(id));

  tryOut = (id: number, typed: readonly TypedChange[]): TrialAnswer => tryOut(this.find(id), typed);

  /** What a formula would give in a cell, and what would be in its way. */
  preview = (id: number, address: string, formula: string): PreviewAnswer =>
    previewEntry(this.find(id), address, formula);

  listUnbound = (id: number): UnboundCall[] => listUnbound(this.find(id));

  /** The workbook with one more sheet of texts and numbers. */
  addSheet = (id: number, name: string, rows: readonly (readonly (string | number)[])[]) =>
    addPlainSheet(requireFile(this.find(id)), name, rows);

  /** The workbook after formulas and values were typed into cells, recalculated. */
  type = (id: number, entries: readonly TypedEntry[]): Uint8Array => typeEntries(this.find(id), entries);

  compare = (before: number, after: number): ComparisonAnswer => compareVersions(this.find(before), this.find(after));

  /** How many differences there are to be tried one by one. */
  countTurns = (before: number, after: number): number => this.prepareTurns(before, after).count;

  /** The verdicts with one difference alone. Each is a question of its own, so that whoever asks may stop between them. */
  tryTurn = (before: number, after: number, index: number): Turn => this.prepareTurns(before, after).tryOne(index);

  private prepareTurns(before: number, after: number): TurnSearch {
    const [earlier, later] = [this.find(before), this.find(after)];
    if (this.turns?.earlier !== earlier || this.turns.later !== later)
      this.turns = { earlier, later, search: prepareTurns(earlier, later) };
    return this.turns.search;
  }

  makeIssueCopy = (id: number): FileAnswer => makeIssueCopy(this.find(id));

  makeChangedCopy = (id: number, typed: readonly TypedChange[]): FileAnswer => makeChangedCopy(this.find(id), typed);

  /** Reviews a workbook; what takes several evaluations goes to a desk of its own. */
  review(name: string, bytes: Uint8Array, watch: Watch): { readonly answer: ReviewAnswer; readonly page: FileAnswer } {
    const now = new Date();
    const verification = verifyWorkbook(openWorkbook(bytes, { withLooks: true }), this.addIn, now, watch);
    return { answer: describeReview(name, verification), page: makeFindingsPage(name, verification, now) };
  }

  private find(id: number): Desktop {
    const desktop = this.desktops.get(id);
    if (!desktop) throw Refusal.of("notOpen");
    return desktop;
  }
}

const mostListed = 200;

function describeWorkbook(desktop: Desktop): WorkbookAnswer {
  const { name, opened, book, evaluation } = desktop;
  const formulas = evaluation.cells.filter(({ role }) => role === "formula");
  const mark = readIssueMark(opened?.book ?? book);
  return {
    name,
    sheets: book.sheets.map((sheet) => ({ name: sheet.name, isVisible: sheet.visibility === "visible" })),
    verdicts: describeVerdicts(desktop),
    summary: readSummaryOf(desktop),
    formulaCells: formulas.length,
    evaluatedCells: formulas.filter(({ outcome }) => outcome.evaluated).length,
    differences: compareWithStored(book, evaluation)
      .slice(0, mostListed)
      .map(({ address, stored, computed }) => ({
        address,
        stored: formatCellValue(stored),
        computed: formatCellValue(computed),
      })),
    notEvaluated: formulas
      .flatMap(({ address, outcome }) => (outcome.evaluated ? [] : [{ address, reason: outcome.reason }]))
      .slice(0, mostListed),
    cautions: opened?.cautions ?? [],
    issued: mark && { day: mark.issued, methodVersion: mark.methodVersion, fingerprint: mark.fingerprint },
    graphs: listGraphs(desktop).map(nameGraph),
  };
}

function describeReview(name: string, verification: Verification): ReviewAnswer {
  const countSeverity = (severity: string): number =>
    verification.findings.filter((finding) => finding.severity === severity).length;
  return {
    outcome: judgeOutcome({ file: name, status: "reviewed", verification }),
    basis: describeBasis(verification),
    counts: { error: countSeverity("error"), warning: countSeverity("warning"), note: countSeverity("note") },
    groups: gatherByCause(verification.findings).map(({ first, same, related, severity, decides }) => ({
      first,
      severity,
      turnsVerdict: decides,
      figure: describeFigure(first),
      places: joinPlaces(same.map(({ place }) => place)),
      related,
    })),
    checked: verification.checked.map(describeAssurance),
    beyondPrograms,
  };
}
