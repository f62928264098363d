import { ErrorValue, type CellValue } from "../../model";
import type { Argument } from "../../book/add-in-calls";
import type { Finding } from "../finding";
import type { Check, Review } from "../review";
import { findUnitBehind } from "../units";
import { claimsPass, saysPass, type Verdict } from "../verdicts";
import { formatFigure, formatCellValue, showFormula } from "../../formatting";

/** Verdicts that are not what PASSFAIL returns, or that it returns for figures other than those in its cells. */
export const checkVerdictCalls: Check = (review) =>
  review.verdicts.flatMap((verdict) => [
    ...findShownOtherwise(review, verdict),
    ...findHandedOtherwise(review, verdict),
  ]);

/** What the call alone returns, without any condition or function around it. */
function findShownOtherwise({ view }: Review, { call, cells }: Verdict): Finding[] {
  const own = view.evaluateNode(call.node, call.place);
  const [cell] = cells;
  if (own?.length !== 1 || !cell || cells.length !== 1 || !claimsPass(cell.word)) return [];
  const [word = null] = own;
  if (typeof word === "string" && saysPass(word)) return [];
  return [
    {
      kind: "verdict misreported",
      severity: "error",
      decides: true,
      place: view.formatAddress(cell.place),
      what: `${formatCellValue(view.readText(cell.place))} is shown here (${showFormula(view.findCell(call.place)?.formula?.text ?? "")}), but its PASSFAIL gives ${formatWord(word)}.`,
      why: "The formula around the call decides, not the result and its limit.",
      todo: "Show what PASSFAIL gives.",
    },
  ];
}

const formatWord = (value: CellValue): string =>
  value instanceof ErrorValue && value.reason !== "" ? `${value.code} (${value.reason})` : formatCellValue(value);

interface Handed {
  readonly argument: Argument | undefined;
  readonly name: string;
  readonly kind: "result altered" | "limit changed";
  /** Whether a change that way helps the house to pass. */
  readonly helps: (handed: number, held: number) => boolean;
}

/** Arguments computed from a cell inside the call, so that the sheet shows a figure other than the one judged. */
function findHandedOtherwise({ view }: Review, { call, result, target }: Verdict): Finding[] {
  const isLess = (handed: number, held: number): boolean => handed < held;
  const arguments_: Handed[] = [
    { argument: result, name: "result", kind: "result altered", helps: isLess },
    { argument: target, name: "limit", kind: "limit changed", helps: (handed, held) => handed > held },
    { argument: call.arguments[2], name: "uncertainty", kind: "result altered", helps: isLess },
  ];
  return arguments_.flatMap(({ argument, name, kind, helps }): Finding[] => {
    const place = argument?.area && view.listCells(argument.area)[0];
    const held = place && view.readNumber(place);
    const [handed] = argument ? (view.evaluateNode(argument.node, call.place) ?? []) : [];
    if (!place || held === undefined || typeof handed !== "number" || !helps(handed, held)) return [];
    if (Math.abs(handed / held - 1) <= 1e-9 || findUnitBehind(handed / held, 1e-6)) return [];
    return [
      {
        kind,
        severity: "warning",
        place: view.formatAddress(call.place),
        what: `The verdict is given for a ${name} of ${formatFigure(handed, 6)}, but ${view.formatAddress(place)} holds ${formatFigure(held, 6)}: ${showFormula(view.findCell(call.place)?.formula?.text ?? "")}.`,
        why: "Nobody reading the sheet sees a factor or deduction inside the verdict's formula.",
        todo: "Pass the cell unchanged, and ask for the reason for the change.",
      },
    ];
  });
}
