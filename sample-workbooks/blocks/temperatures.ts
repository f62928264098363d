import { addressOf, boxOf } from "./address";
import type { Sheet } from "./sheet";
import { palette } from "./style";
import { between } from "./validation";

/** Temperatures of a test that can hardly be meant, so that °C typed as °F or the reverse is seen. Common practice, no source. */

/** °C, whole degrees: indoors in use or under construction; outdoors on a day on which anyone tests. */
const likely = { indoors: [5, 35], outdoors: [-35, 42] } as const;

type Place = keyof typeof likely;

/** A formula: a cell of the range holds a temperature that is hardly meant; blank cells and words count for nothing. */
export function hardlyMeant(
  range: string,
  place: Place,
  fromCelsius: (celsius: number) => number = (celsius) => celsius,
): string {
  const [lowest, highest] = likely[place].map((celsius) => Math.round(fromCelsius(celsius)));
  return `COUNTIF(${range},"<${lowest}")+COUNTIF(${range},">${highest}")>0`;
}

/** Checks for cells with temperatures in °C: refused where no air is like that, red where it was probably typed in °F. */
export function airTemperatures(
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
    sheet.when(ranges[place], hardlyMeant(addressOf(top, left), place), {
      font: { bold: true, color: { rgb: palette.fail } },
    });
  }
}
