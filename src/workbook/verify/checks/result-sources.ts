import { placeKey } from "../../book/area";
import type { Finding } from "../finding";
import type { Check } from "../review";
import { formatFigure } from "../../formatting";

/** Verdicts on a figure that no add-in calculation produces, in a workbook with tests: it was typed in somewhere. */
export const checkResultSources: Check = ({ view, runs, verdicts, calls }) => {
  if (runs.length === 0) return [];
  const computed = new Set(calls.map(({ place }) => placeKey(place)));
  return verdicts.flatMap(({ call, result }): Finding[] => {
    const [value] = result ? (view.evaluateNode(result.node, call.place) ?? []) : [];
    if (!result || typeof value !== "number") return [];
    if (view.dependsOn(result.areas, computed)) return [];
    const place = result.area && view.listCells(result.area)[0];
    return [
      {
        kind: "result not from a test",
        severity: "warning",
        place: view.formatAddress(place ?? call.place),
        what: `The verdict in ${view.formatAddress(call.place)} uses ${formatFigure(value, 6)}, which comes from none of the tests in this workbook.`,
        why: "It stays the same whatever the readings are.",
        todo: "Base the verdict on the result in the test's own table, or say where the figure comes from.",
      },
    ];
  });
};
