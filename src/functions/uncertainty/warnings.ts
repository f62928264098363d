import type { Diagnosis } from "../../core/index";

/** A warning that always has its row: what it is about, and what to do where it applies. */
export type Warning = readonly [symbol: string, about: string, advice: string | undefined];

const shownPa = (value: number) => Number(value.toPrecision(2));

/**
 * @param missing What the budget could not count because the sheet does not say it.
 * @param fewBaselineRows Whether the correlation of the baseline's rows counts but cannot be told.
 */
export function warningsOf(diagnosis: Diagnosis, missing: readonly string[], fewBaselineRows: boolean): Warning[] {
  const { scatter, weakBelow } = diagnosis;
  const when = (applies: boolean, advice: string) => (applies ? advice : undefined);
  return [
    ["w_few", "number of readings", when(diagnosis.fewReadings, "few readings: take 8 or more")],
    [
      "w_weak",
      "uncertainty of the induced pressures",
      when(
        diagnosis.weak,
        `n and low-pressure results are weak: repeat in calmer weather, or drop readings below ${shownPa(weakBelow)} Pa`,
      ),
    ],
    [
      "w_unusable",
      "use for n",
      when(diagnosis.unusable, "test not usable for n or low pressures: repeat in calmer weather"),
    ],
    [
      "w_wind",
      "wind against the lowest reading",
      when(
        diagnosis.tooWindy,
        "no uncertainty can be given for these readings: repeat in calmer weather or start higher",
      ),
    ],
    [
      "w_extrapolated",
      "pressure among the readings",
      when(
        diagnosis.extrapolated,
        "extrapolated: neither the fit nor a simulation sees a wrong power law; read up to this pressure",
      ),
    ],
    [
      "w_rows",
      "number of baseline readings",
      when(fewBaselineRows, "too few to tell whether gusts make neighbours alike: read 10 or more over 30 s"),
    ],
    ["w_moved", "movement of the baseline", when(diagnosis.baselineMoved, "baseline moved: repeat")],
    [
      "w_scatter",
      "scatter against stated uncertainty",
      scatter === "larger than stated"
        ? "scatter larger than stated: look for gusts, doors or a wrong reading"
        : scatter === "smaller than stated"
          ? "stated too large, or readings smoothed or copied"
          : undefined,
    ],
    ["w_missing", "everything counted", when(missing.length > 0, `not counted, for want of ${missing.join(", ")}`)],
  ];
}
