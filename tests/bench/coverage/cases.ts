import { precise, usual, type Instruments } from "./physics/instruments";
import { scenarios, type Scenario } from "./scenarios";
import { statedNoise, type Setting } from "./sheet";
import { ordinaryAlone, techniques, type Technique } from "./techniques";

/** One row of the bench: a scenario, with instruments, evaluated by a technique. */
export interface Case {
  readonly scenario: Scenario;
  readonly instruments: Instruments;
  readonly technique: Technique;
}

/** Every case, in the order of the table. */
export const cases: readonly Case[] = scenarios.flatMap((scenario) =>
  [usual, precise].flatMap((instruments) =>
    (scenario.techniques === "all" ? techniques : [ordinaryAlone]).map((technique) => ({
      scenario,
      instruments,
      technique,
    })),
  ),
);

/** The technique, the noise where it is stated, and no extrapolation allowance: the simulated houses obey the power law. */
export function settingsOf({ scenario, instruments, technique }: Case): Setting[] {
  return [
    ["technique", technique.technique],
    ...(technique.noiseStated ? statedNoise(scenario, instruments) : []),
    ["extrapolation allowance", "none"],
  ];
}
