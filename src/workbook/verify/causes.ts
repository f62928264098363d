import { formatAreaAddress, parseArea, parseSheetArea } from "../book/address";
import { isSingleCell, mergeAreas, placeKey, type SheetArea, shareCells } from "../book/area";
import type { Inspector } from "../book/inspector";
import type { Label } from "../book/labels";
import { describeShape } from "../book/like-formulas";
import type { Finding, FindingKind } from "./finding";

/** A finding with the figure at its place and the cause that it shares with others. */
export interface CausedFinding extends Finding {
  /** What its sheet calls the cell. */
  readonly figure?: Label;
  /** Findings with one root have one number, worst first, from 1. */
  readonly cause: number;
}

/** One cause: the finding that names it, and all else that shows it. */
export interface Cause {
  readonly first: CausedFinding;
  /** The same at other places. */
  readonly same: readonly CausedFinding[];
  /** Findings of other kinds that follow from it. */
  readonly related: readonly CausedFinding[];
  /** The most severe of them all. */
  readonly severity: Finding["severity"];
  /** Whether any of them turns a verdict. */
  readonly decides: boolean;
}

/** Something was typed, pasted or deleted in a cell. */
const edits: readonly FindingKind[] = [
  "formula overwritten",
  "formula missing",
  "formula frozen to a number",
  "number as text",
  "result typed in",
  "size typed in",
  "verdict typed in",
];

const wrongUnits: readonly FindingKind[] = [
  "flow unit",
  "size unit",
  "barometer unit",
  "temperature unit",
  "humidity unit",
];

/** What keeps a formula from being evaluated. */
const spoils: readonly FindingKind[] = ["broken reference", "circular reference", "external link", "shows #NAME?"];

interface Consequence {
  readonly of: readonly FindingKind[];
  /** How its cell is connected with that of the cause: it reads it directly, or at any remove; or it is in the same rows or columns. */
  readonly by: "direct" | "any" | "line";
}

/** Kinds that follow from others. */
const consequences: Partial<Record<FindingKind, Consequence>> = {
  "error value": {
    of: [...spoils, ...edits, ...wrongUnits, "sign of the readings", "swapped directions", "name points elsewhere"],
    by: "any",
  },
  "not evaluated": { of: spoils, by: "any" },
  "verdict not computed by PASSFAIL": { of: ["verdict typed in"], by: "any" },
  "old result": { of: edits, by: "direct" },
  "result altered": { of: edits, by: "direct" },
  "result not from a test": { of: edits, by: "direct" },
  "step without explanation": { of: edits, by: "direct" },
  "formula breaks the pattern": { of: edits, by: "direct" },
  "flow unit": { of: edits, by: "line" },
  "runs differ": { of: [...edits, ...wrongUnits], by: "line" },
  "hidden cells": { of: ["hidden readings"], by: "line" },
};

/** Kinds about what is in one cell: what is written there may be found by several checks. */
const ofTheFormula: ReadonlySet<FindingKind> = new Set([
  ...edits,
  "blank cells matter",
  "broken reference",
  "counted twice",
  "formula breaks the pattern",
  "hard-coded figure",
  "limit changed",
  "masked error",
  "not evaluated",
  "range misses readings",
  "ranges misaligned",
  "result altered",
  "result not from a test",
  "shows #NAME?",
  "step without explanation",
]);

/** Kinds of which any number has one cause: a workbook was not recalculated after a change. */
const always: ReadonlySet<FindingKind> = new Set(["old result"]);

/** From this many on, findings of one kind are taken for one habit of the workbook's author, unless they turn a verdict or are edits. */
const habit = 4;

interface Placed {
  readonly finding: Finding;
  readonly area: SheetArea | undefined;
}

/** Gives each finding its figure and the number of its cause. The findings come worst first, and a cause is as bad as the worst of its findings. */
export function numberCauses(view: Inspector, findings: readonly Finding[]): CausedFinding[] {
  const placed = findings.map((finding): Placed => ({ finding, area: findArea(view, finding.place) }));
  const isNote = ({ finding }: Placed): boolean => finding.severity === "note";
  const groups = [
    ...joinByCause(
      view,
      placed.filter((one) => !isNote(one)),
    ),
    ...joinAlike(view, placed.filter(isNote)),
  ];
  const groupOf = new Map(groups.flatMap((group) => group.map((one) => [one, group] as const)));
  const numbers = new Map<readonly Placed[], number>();
  return placed.map((one) => {
    const group = groupOf.get(one) ?? [one];
    const cause = numbers.get(group) ?? numbers.set(group, numbers.size + 1).size;
    const figure = one.area && view.labels.describeArea(one.area);
    return { ...one.finding, ...(figure && isFigure(figure) ? { figure } : {}), cause };
  });
}

/** Words alone may belong to another cell; a symbol or a unit says that they name a figure. */
const isFigure = ({ text, symbol, unit }: Label): boolean => text !== "" && (symbol !== "" || unit !== "");

function findArea(view: Inspector, place: string): SheetArea | undefined {
  const name = /^the name (\S+)$/.exec(place)?.[1];
  return name === undefined ? parseSheetArea(place, view.book.sheets) : view.findNamedArea(name);
}

/** Findings that are no consequences, those of one cause together; each consequence joins the first cause that explains it. */
function joinByCause(view: Inspector, placed: readonly Placed[]): Placed[][] {
  if (placed.length === 0) return [];
  const kinds = new Set(placed.map(({ finding }) => finding.kind));
  const isRoot = ({ finding }: Placed): boolean => !mayFollow(finding.kind, kinds);
  const roots = joinAlike(view, placed.filter(isRoot));
  const followers = new Map<Placed[], Placed[]>(roots.map((root) => [root, []]));
  const left: Placed[] = [];
  for (const one of placed.filter((each) => !isRoot(each))) {
    const root = roots.find((group) => group.some((cause) => explains(view, cause, one)));
    (root ? followers.get(root)! : left).push(one);
  }
  // What none of these explains may follow from another.
  return [...roots.map((root) => [...root, ...followers.get(root)!]), ...joinByCause(view, left)];
}

const mayFollow = (kind: FindingKind, kinds: ReadonlySet<FindingKind>): boolean =>
  consequences[kind]?.of.some((cause) => kinds.has(cause)) ?? false;

function explains(view: Inspector, { finding: cause, area: root }: Placed, { finding, area }: Placed): boolean {
  const consequence = consequences[finding.kind];
  if (!consequence?.of.includes(cause.kind) || !root || !area) return false;
  const { by } = consequence;
  if (shareCells(root, area)) return true;
  if (by === "line")
    return (
      root.sheet === area.sheet &&
      ((root.top <= area.bottom && area.top <= root.bottom) || (root.left <= area.right && area.left <= root.right))
    );
  if (by === "direct")
    return view
      .listPrecedents({ sheet: area.sheet, row: area.top, column: area.left })
      .some((read) => shareCells(read, root));
  return view.listCells(root).some((cell) => view.findUpstream([area]).has(placeKey(cell)));
}

/** Findings of one cause: what several checks say of one formula; one kind in cells that touch, in copies of one formula or with the same words; many of a kind. */
function joinAlike(view: Inspector, placed: readonly Placed[]): Placed[][] {
  const counts = new Map<string, number>();
  for (const { finding } of placed) counts.set(finding.kind, (counts.get(finding.kind) ?? 0) + 1);
  const parents = placed.map((_, index) => index);
  const findRoot = (index: number): number => {
    let at = index;
    while (parents[at] !== at) at = parents[at] = parents[parents[at]!]!;
    return at;
  };
  const holders = new Map<string, number>();
  for (const [index, one] of placed.entries())
    for (const key of listCommonTraits(view, one, counts.get(one.finding.kind) ?? 0)) {
      const holder = holders.get(key);
      if (holder === undefined) holders.set(key, index);
      else parents[findRoot(index)] = findRoot(holder);
    }
  const groups = new Map<number, Placed[]>();
  for (const [index, one] of placed.entries()) {
    const root = findRoot(index);
    const group = groups.get(root);
    if (group) group.push(one);
    else groups.set(root, [one]);
  }
  return [...groups.values()];
}

/** Texts of which findings of one cause have one in common. */
function listCommonTraits(view: Inspector, { finding, area }: Placed, count: number): string[] {
  const { kind, what, severity, decides, place } = finding;
  const own = `${severity} ${kind}`;
  const traits = [`${own}: ${what}`];
  if (always.has(kind) || (count >= habit && decides !== true && !edits.includes(kind))) traits.push(own);
  if (ofTheFormula.has(kind)) traits.push(place);
  if (!area || !isSingleCell(area)) return traits;
  const { sheet, top: row, left: column } = area;
  const pattern = view.findPattern({ sheet, row, column });
  if (pattern !== undefined) traits.push(`${own} ${describeShape(pattern)}`);
  if (edits.includes(kind)) traits.push(`${own} column ${sheet} ${column}`);
  // Cells that touch have an edge in common.
  for (const step of [0, 1])
    traits.push(`${own} above ${sheet} ${row + step} ${column}`, `${own} before ${sheet} ${row} ${column + step}`);
  return traits;
}

/** The causes of findings, in their order. Where `all` is asked for, each finding is told by itself. */
export function gatherByCause(findings: readonly CausedFinding[], all = false): Cause[] {
  if (all) return findings.map((first) => describeCause([first]));
  const groups = new Map<number, CausedFinding[]>();
  for (const finding of findings) groups.set(finding.cause, [...(groups.get(finding.cause) ?? []), finding]);
  return [...groups.values()].map(describeCause);
}

function describeCause(group: readonly CausedFinding[]): Cause {
  const [worst] = group;
  const kinds = new Set(group.map(({ kind }) => kind));
  const first = group.find(({ kind }) => !mayFollow(kind, kinds)) ?? worst!;
  const others = group.filter((finding) => finding !== first);
  return {
    first,
    same: others.filter(({ kind }) => kind === first.kind),
    related: others.filter(({ kind }) => kind !== first.kind),
    severity: worst!.severity,
    decides: group.some(({ decides }) => decides === true),
  };
}

/** Places as a person lists them: cells that touch as one range. */
export function joinPlaces(places: readonly string[]): string[] {
  const sheets: string[] = [];
  const areas: SheetArea[] = [];
  const others: string[] = [];
  for (const place of places) {
    const mark = place.lastIndexOf("!");
    const area = mark < 0 ? undefined : parseArea(place.slice(mark + 1));
    if (!area) {
      others.push(place);
      continue;
    }
    const prefix = place.slice(0, mark + 1);
    if (!sheets.includes(prefix)) sheets.push(prefix);
    areas.push({ sheet: sheets.indexOf(prefix), ...area });
  }
  const joined = mergeAreas(areas, "both").map((area) => `${sheets[area.sheet] ?? ""}${formatAreaAddress(area)}`);
  return [...new Set([...joined, ...others])];
}
