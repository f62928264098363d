import { Draws } from "./physics/draws";
import { drawHouse, truthOf, type Truth } from "./physics/house";
import { drawRigErrors, type Instruments } from "./physics/instruments";
import type { Scenario } from "./scenarios";
import type { Sheet } from "./sheet";
import { beginVisit, readBaselines, readDirection } from "./visit";

/** A test of both directions, another visit to the same house with the same instruments, and what all of them should find. */
export interface SimulatedTest {
  readonly truth: Truth;
  readonly depressurization: Sheet;
  readonly pressurization: Sheet;
  /** Depressurization again, on another day. */
  readonly repeat: Sheet;
}

/** One invented house and its tests, the same for a seed, a scenario's name and the number of the test. */
export function simulateTest(scenario: Scenario, instruments: Instruments, seed: number, test: number): SimulatedTest {
  const draws = new Draws(seed, scenario.name, test);
  const house = drawHouse(draws);
  const rig = drawRigErrors(instruments, draws);
  const one = { scenario, instruments, house, rig, draws };
  const first = beginVisit(one);
  const baselines = readBaselines(first);
  const depressurization = readDirection(first, "depressurization", baselines);
  const others = scenario.baseline.shared ? baselines : readBaselines(first);
  const pressurization = readDirection(first, "pressurization", others);
  const second = beginVisit(one);
  const repeat = readDirection(second, "depressurization", readBaselines(second));
  return { truth: truthOf(house), depressurization, pressurization, repeat };
}
