import { addressOf, boxOf } from "./address";
import type { DataValidation } from "./hucre";
import type { Sheet } from "./sheet";
import { palette } from "./style";

interface Words {
  readonly title: string;
  /** Shown when the cell is selected. */
  readonly hint: string;
  /** Shown when the entry is refused. */
  readonly refusal: string;
}

const shown = { allowBlank: true, showInputMessage: true, showErrorMessage: true, errorStyle: "stop" } as const;

function words({ title, hint, refusal }: Words) {
  return { inputTitle: title, inputMessage: hint, errorTitle: title, errorMessage: refusal };
}

/** A number between two limits, both allowed. */
export function between(range: string, lowest: number, highest: number, title: string, hint: string): DataValidation {
  const refusal = `A number from ${lowest} to ${highest} is expected here.`;
  return {
    ...shown,
    type: "decimal",
    operator: "between",
    formula1: String(lowest),
    formula2: String(highest),
    range,
    ...words({ title, hint, refusal }),
  };
}

/** A whole number between two limits. */
export function wholeBetween(
  range: string,
  lowest: number,
  highest: number,
  title: string,
  hint: string,
): DataValidation {
  const refusal = `A whole number from ${lowest} to ${highest} is expected here, or nothing.`;
  return { ...between(range, lowest, highest, title, hint), type: "whole", ...words({ title, hint, refusal }) };
}

/** One of a few words. */
export function oneOf(range: string, values: readonly string[], title: string, hint: string): DataValidation {
  const refusal = `Choose from the list: ${values.join(", ")}.`;
  return { ...shown, type: "list", values: [...values], range, ...words({ title, hint, refusal }) };
}

/** One of the entries of a range. */
export function fromList(range: string, source: string, title: string, hint: string): DataValidation {
  return {
    ...shown,
    type: "list",
    formula1: source,
    range,
    ...words({ title, hint, refusal: "Choose from the list." }),
  };
}

/** A day from 2000 on, as Excel's serial number. */
export function day(range: string, title: string, hint: string): DataValidation {
  const refusal = "A date is expected here.";
  return { ...between(range, 36526, 73050, title, hint), type: "date", ...words({ title, hint, refusal }) };
}

/** Any text up to a length. */
export function text(range: string, title: string, hint: string, longest = 120): DataValidation {
  return {
    ...shown,
    type: "textLength",
    operator: "lessThanOrEqual",
    formula1: String(longest),
    range,
    ...words({ title, hint, refusal: `At most ${longest} characters.` }),
  };
}

/**
 * Temperatures that a test may have, so that °C typed as °F or the reverse is seen; °C, whole degrees: indoors in use or under construction, outdoors
 * on a day on which anyone tests. Common practice, no source.
 */
const likely = { indoors: [5, 35], outdoors: [-35, 42] } as const;

type Place = keyof typeof likely;

/** A formula: a cell of the range holds a temperature that is hardly meant; blank cells and words count for nothing. */
export function isUnlikelyTemperature(
  range: string,
  place: Place,
  fromCelsius: (celsius: number) => number = (celsius) => celsius,
): string {
  const [lowest, highest] = likely[place].map((celsius) => Math.round(fromCelsius(celsius)));
  return `COUNTIF(${range},"<${lowest}")+COUNTIF(${range},">${highest}")>0`;
}

/** Checks for cells with temperatures in °C: refused where no air is like that, red where it was probably typed in °F. */
export function validateTemperatures(
  sheet: Sheet,
  ranges: Readonly<Record<Place, string>>,
  words = "Air temperature",
): void {
  for (const place of ["indoors", "outdoors"] as const) {
    const { top, left } = boxOf(ranges[place]);
    sheet.validate(
      between(
        ranges[place],
        -45,
        50,
        place === "indoors" ? "Indoors, °C" : "Outdoors, °C",
        `${words}; 0 is a value. It turns red where it can hardly be °C: was °F typed?`,
      ),
    );
    sheet.when(ranges[place], isUnlikelyTemperature(addressOf(top, left), place), {
      font: { bold: true, color: { rgb: palette.fail } },
    });
  }
}
