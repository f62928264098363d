import { areaOf, isSingleCell, type Place } from "../../book/area";
import { type EnteredRun, readResult, readSetting, readWord } from "../../book/tests/entered-runs";
import { formatFigure } from "../../formatting";
import { isOneSeries } from "../compared-tests";
import type { Finding } from "../finding";
import type { Check, Review } from "../review";

/** Inputs of a test that do not go together. */
export const checkPlausibleInputs: Check = (review) => [
  ...review.runs.flatMap((run) => [...checkTemperatures(review, run), ...checkTemperatureLabels(review, run)]),
  ...compareRuns(review),
];

/** A house colder than this while it is that much warmer outdoors, °C and K: common practice, no source. */
const cold = 12;
const warmer = 8;

function checkTemperatures({ view }: Review, run: EnteredRun): Finding[] {
  const isFahrenheit = readWord(view, run, "units") === "ip";
  const [indoors, outdoors] = ["indoor temperature", "outdoor temperature"].map((label) => {
    const value = readSetting(view, run, label);
    return typeof value === "number" ? (isFahrenheit ? (value - 32) / 1.8 : value) : undefined;
  });
  const place = run.settings.get("indoor temperature")?.place;
  if (indoors === undefined || outdoors === undefined || !place) return [];
  if (indoors >= cold || outdoors < indoors + warmer) return [];
  return [
    {
      kind: "swapped temperatures",
      severity: "warning",
      place: view.formatAddress(place),
      what: `Indoors it is ${formatFigure(indoors, 3)} °C and outdoors ${formatFigure(outdoors, 3)} °C: the two may be swapped.`,
      why: "The ratio of the densities corrects every flow, the other way round in each direction.",
      todo: "Compare with the site record and the season.",
    },
  ];
}

const words = {
  "indoor temperature": /outdoor|outside|external|außen|aussen|extérieur|exterior|estern|buiten|zewn/i,
  "outdoor temperature": /indoor|inside|internal|innen|intérieur|interior|intern[ao]|binnen|wewn/i,
} as const;

/** A temperature fetched from a cell that is labelled as the other one. */
function checkTemperatureLabels({ view }: Review, run: EnteredRun): Finding[] {
  return (["indoor temperature", "outdoor temperature"] as const).flatMap((label): Finding[] => {
    const setting = run.settings.get(label);
    const [source, ...others] = setting ? view.listPrecedents(setting.place) : [];
    if (!setting || !source || others.length > 0 || !isSingleCell(source)) return [];
    const from: Place = { sheet: source.sheet, row: source.top, column: source.left };
    const before = view.labels.readWordsBefore(from);
    if (!words[label].test(before)) return [];
    return [
      {
        kind: "swapped temperatures",
        severity: "warning",
        place: view.formatAddress(setting.place),
        what: `The ${label} is fetched from ${view.formatArea(areaOf(from))}, which is labelled “${before.trim()}”.`,
        why: "The ratio of the densities corrects every flow, the other way round in each direction.",
        todo: "Fetch each temperature from its own cell.",
      },
    ];
  });
}

/** Repeated runs of one test, on one day and with one preparation, differ by less, as a fraction of their mean: common practice, no source. */
const mostSpread = 0.15;

/** Runs of one direction that can hardly be of one house on one day, such as readings left over from another house. */
function compareRuns(review: Review): Finding[] {
  const { view, tests } = review;
  return tests.enteredTests.flatMap((runs) =>
    runs.flatMap((one, index) =>
      runs.slice(index + 1).flatMap((other): Finding[] => {
        if (one.direction !== other.direction || isOneSeries(view, one, other)) return [];
        const [a, b] = [readResult(review, one, "q50"), readResult(review, other, "q50")];
        if (a === undefined || b === undefined || Math.abs(a - b) <= (mostSpread * (a + b)) / 2) return [];
        return [
          {
            kind: "runs differ",
            severity: "warning",
            place: view.formatArea(other.pressures),
            what: `Two runs of ${one.direction} differ by ${formatFigure((200 * Math.abs(a - b)) / (a + b), 2)} %: q50 is ${formatFigure(a)} in ${view.formatArea(one.pressures)} and ${formatFigure(b)} in ${view.formatArea(other.pressures)}.`,
            why: "Their mean is reported as one house; readings left over from another test would do this.",
            todo: "Check that both runs are of this house and this day; leave out what is not.",
          },
        ];
      }),
    ),
  );
}
