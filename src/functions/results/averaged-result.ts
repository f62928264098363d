import { averagedResult as averageOf, oneDirectionRules } from "../../core/index";
import { choice, isBlankOrZero, numbersIn } from "../cells/cells";
import { inCell } from "../cells/host-error";

/** Results of the runs of one direction; a 0 is a blank cell. */
function runsIn(argument: unknown, name: string): number[] {
  return numbersIn(argument, name).filter((result) => !isBlankOrZero(result));
}

/**
 * Mean of a result (n50, q50, q_E50, …) over the two directions. Repeated runs are first averaged within their
 * direction.
 * Equation: mean = (x_dep + x_pres)/2.
 * Source: ISO 9972:2015, mean of depressurization and pressurization.
 * @customfunction AVERAGEDRESULT
 * @param depressurization Result, or results of several runs. 0 means blank.
 * @param pressurization Result, or results of several runs. 0 means blank.
 * @param [one_direction] If one direction is missing: "refuse" (default) or "accept", for programmes that take one direction.
 * @returns The mean.
 * @core results/averaged.ts
 * @check authorities/trade-practice.test.ts authorities/published-cells.test.ts
 */
export function averagedResult(
  depressurization: any[][],
  pressurization: any[][],
  one_direction?: string | null,
): number {
  return inCell(() =>
    averageOf(
      {
        depressurization: runsIn(depressurization, "depressurization"),
        pressurization: runsIn(pressurization, "pressurization"),
      },
      choice(one_direction, oneDirectionRules, "one_direction", "refuse"),
    ),
  );
}
