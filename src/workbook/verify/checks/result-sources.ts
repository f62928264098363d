import { placeKey } from "../../book/area";
import { findUpstream } from "../../book/upstream";
import type { Finding } from "../finding";
import type { Check } from "../review";
import { formatFigure } from "../../words";

/** Verdicts on a figure that rests on no calculation of the add-in, in a workbook that has tests: it was typed in somewhere. */
export const checkResultSources: Check = ({ view, tests, verdicts, calls }) => {
  if (tests.length === 0) return [];
  const computed = new Set(calls.map(({ place }) => placeKey(place)));
  return verdicts.flatMap(({ call, result }): Finding[] => {
    const [value] = result ? (view.evaluateNode(result.node, call.place) ?? []) : [];
    if (!result || typeof value !== "number") return [];
    if ([...findUpstream(view, result.areas).keys()].some((key) => computed.has(key))) return [];
    const place = result.area && view.listCells(result.area)[0];
    return [
      {
        kind: "result of no test",
        severity: "doubtful",
        place: view.formatAddress(place ?? call.place),
        what: `The verdict in ${view.formatAddress(call.place)} goes by ${formatFigure(value, 6)}, which rests on none of the tests in this workbook.`,
        why: "It stays whatever the readings say.",
        todo: "Let the verdict go by the result that the test's own table gives, or say where the figure comes from.",
      },
    ];
  });
};
