import type { Place } from "../../book/area";
import { saysPass } from "../verdicts";
import type { Check } from "../review";
import { formatList } from "../../formatting";

const conventions = ["room by room", "whole internal"];

/** A volume by one convention judged against a criterion based on the other. */
export const checkVolumeConventions: Check = ({ view, runs, verdicts, book }) => {
  const named = book.names
    .filter(({ name }) => /convention/i.test(name))
    .flatMap(({ text }) => {
      const area = view.findNamedArea(text);
      return area ? view.listCells(area) : [];
    });
  const set = runs.flatMap((run) => run.settings.get("volume convention")?.place ?? []);
  const labelled = view
    .listTexts()
    .filter(
      ({ place, text }) =>
        conventions.includes(text.toLowerCase()) && /volume convention/i.test(view.labels.readWordsBefore(place)),
    )
    .map(({ place }) => place);
  const found = new Map<string, Place>();
  for (const place of [...named, ...set, ...labelled]) {
    const word = view.readText(place).toLowerCase();
    if (conventions.includes(word) && !found.has(word)) found.set(word, place);
  }
  if (found.size < 2) return [];
  const [one, other] = [...found];
  if (!one || !other) return [];
  const words = verdicts.flatMap(({ cells }) => cells.map(({ word }) => word));
  const isJudged = words.some((word) => saysPass(word) || word === "fail");
  const places = [...found].map(([word, place]) => `“${word}” in ${view.formatAddress(place)}`);
  return [
    {
      kind: "volume convention",
      severity: isJudged ? "error" : "warning",
      place: view.formatAddress(other[1]),
      what: `The volume and the criterion use different conventions: ${formatList(places)}${isJudged ? ", yet a verdict is given" : ""}.`,
      why: "A flow of 300 m³/h is 0.586 1/h over a whole internal volume of 512 m³ and 0.667 1/h over 450 m³ room by room.",
      todo: "Use the criterion's volume convention.",
    },
  ];
};
