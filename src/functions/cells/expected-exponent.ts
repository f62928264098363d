import { assumedExponent, assumedExponentDeviation, type LeakageFit } from "../../core/index";
import { row, type TableRow } from "./table";

/** What the expected exponent did to n; both values are blank for a technique that expects none. */
export function expectedExponentRows({ prior }: LeakageFit): TableRow[] {
  const [alone, houses] = prior
    ? ["weighted line without n of other houses", `n of other houses: ${assumedExponent} ± ${assumedExponentDeviation}`]
    : [];
  return [
    row("flow exponent of the readings alone", "n_data", prior?.exponentOfReadings, "–", alone),
    row("share of the expected exponent in n", "prior_share", prior?.share, "–", houses),
  ];
}
