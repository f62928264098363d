import type { CheckName } from "../../../core/index";

/** The texts shown with one check. */
interface CheckWords {
  readonly what: string;
  /** Blank where it depends on the user's units. */
  readonly unit: string;
  /** What to do if the limit is not met. */
  readonly advice: string;
  /** What is missing where it cannot be judged. */
  readonly missing: string;
}

const words = (what: string, unit: string, advice: string, missing: string): CheckWords => ({
  what,
  unit,
  advice,
  missing,
});

const setting = (...labels: string[]) =>
  `give ${labels.length > 1 ? "all of the settings" : "the setting"} ${labels.map((label) => `"${label}"`).join(", ")}`;

const calmer = "repeat in calmer weather";
const readings = "take more readings";
const line = "three readings at different pressures are needed, and the uncertainties that the technique asks for";
const forInterval = 'needs the line, and the settings "flow basis", "indoor temperature", "outdoor temperature"';
const ofReducedAccuracy = "its factor is not applied here";
const baselineMean = (side: string, when: string) =>
  words(
    `baseline ${when}, mean of the ${side} readings`,
    "Pa",
    `${calmer}; close shafts and doors that let wind or warm air push`,
    `give the single baseline readings ${when}: one average hides its ${side} part`,
  );
const certificate = (instrument: string) =>
  words(
    `certificate of the ${instrument}, days left on the test day`,
    "d",
    "repeat with an instrument whose certificate is valid on the test day",
    setting("test date", `${instrument} certificate valid until`),
  );
const fit = (symbol: string) =>
  words(
    `fit of the line, ${symbol}`,
    "–",
    `look at the residuals of the readings; ${calmer}, with longer averages`,
    line,
  );
const reach = (what: string, advice: string, missing = readings) =>
  words(`${what} beyond the readings (1 or less: within them)`, "–", advice, missing);

/** The words of every check. */
export const wordsOfCheck: Readonly<Record<CheckName, CheckWords>> = {
  direction: words(
    "directions",
    "",
    "test in the direction that the standard asks for",
    `test the other direction too, and ${setting("q50 of the other direction")}`,
  ),
  count_dp0: words(
    "baseline readings, smaller set",
    "",
    "take more baseline readings",
    "read the baseline before and after",
  ),
  "dp01+": baselineMean("positive", "before"),
  "dp01-": baselineMean("negative", "before"),
  "dp02+": baselineMean("positive", "after"),
  "dp02-": baselineMean("negative", "after"),
  count: words("readings used", "", "take eight or more readings", readings),
  dp_min: words("lowest induced pressure", "Pa", "leave out the readings below the limit", readings),
  dp0_of_min: words(
    "largest mean of the baseline, share of the lowest pressure",
    "%",
    `leave out the lowest readings, or ${calmer}`,
    "give the readings and the single baseline readings before and after",
  ),
  reading_of_min: words(
    "largest baseline reading, share of the lowest pressure",
    "%",
    `${calmer}, or leave out the lowest pressures`,
    "give the single baseline readings before and after",
  ),
  dp_max: words(
    "highest induced pressure",
    "Pa",
    "reach it with a larger opening, another fan or leaks closed for good; if none can, state why",
    readings,
  ),
  dp_span: words("highest less lowest induced pressure", "Pa", "spread the readings wider", readings),
  dp_step: words("largest step between pressures", "Pa", "fill the gap with another reading", readings),
  n: words(
    "flow exponent",
    "–",
    "look for a window, flap or seal that moved, check the fan's opening and range, and repeat",
    line,
  ),
  r2: fit("r²"),
  r: fit("r"),
  s_q10: words(
    "relative standard error of the flow at 10 Pa",
    "%",
    `take more readings at low pressure, or ${calmer}`,
    line,
  ),
  height_dT: words(
    "building height × temperature difference",
    "",
    "expect an unsteady baseline: repeat when it is milder outdoors",
    setting("building height", "indoor temperature", "outdoor temperature"),
  ),
  wind: words("wind", "", calmer, setting("wind speed", "wind place")),
  beaufort: words("wind, Beaufort", "", calmer, setting("beaufort")),
  gauge_days: certificate("gauge"),
  fan_days: certificate("flow device"),
  reach_50: reach("50 Pa", "results at 50 Pa are extrapolated: say so, and reach 50 Pa if you can"),
  reach_4: reach("4 Pa", "results at 4 Pa are extrapolated: give them with their limits"),
  reach_pr: reach(
    "reference pressure",
    "results at the reference pressure are extrapolated: say so, or read up to it",
    'only where the setting "reference pressure" is used',
  ),
  n50: words(
    "air change rate at 50 Pa",
    "1/h",
    "check the units of flow and volume, the opening of the fan and the flow basis",
    setting("volume", "flow basis", "indoor temperature", "outdoor temperature"),
  ),
  q50_apart: words(
    "difference of the two directions, of their mean",
    "%",
    "look for a flap, seal or membrane that opens one way; explain it in the report",
    setting("q50 of the other direction"),
  ),
  dp_min_about: words(
    "lowest induced pressure, without the margin",
    "Pa",
    "leave out the readings below it where you can: the margin that the binding limit allows is from memory",
    readings,
  ),
  dp0_range: words(
    "range of the baseline readings",
    "Pa",
    `${calmer}, or report a test of reduced accuracy: ${ofReducedAccuracy}`,
    "give the single baseline readings: an average hides their range",
  ),
  zeros_dp0: words(
    "baseline readings that are exactly 0",
    "",
    'blank cells arrive as 0 in some hosts: pass blanks as ""',
    "no baseline reading yet",
  ),
  theta_e: words(
    "outdoor temperature",
    "",
    "repeat in milder weather, or state the temperature in the report",
    setting("outdoor temperature"),
  ),
  technique: words(
    "technique of the line",
    "",
    "the standard does not ask for it: keep it for planning, mid-construction and repair, or state why",
    "",
  ),
  ci_q50: words(
    "half-width of the 95 % interval of the flow at 50 Pa, scatter only",
    "%",
    `take more readings, ${calmer}, or report a test of reduced accuracy: ${ofReducedAccuracy}`,
    forInterval,
  ),
  ci_qE75: words(
    "half-width of the 95 % interval of the leakage at 75 Pa per envelope area, scatter only",
    "",
    `take more readings nearer to 75 Pa, or ${calmer}`,
    `${forInterval}, "envelope area"`,
  ),
  method: words("version of the method", "", "", ""),
};
