import { drawsOf } from "../draws";
import { formulasOf, sampleSeeds, smallSeeds, type Seed } from "../seeds";
import { formulaMutant } from "./formula";
import type { Mutant } from "./mutant";
import { rawMutant } from "./raw";
import { xmlMutant } from "./xml";

/** Makes mutants by number: the same for a seed in whatever order they are asked for. */
export class Mutants {
  private readonly small: readonly Seed[] = smallSeeds();
  private readonly samples: readonly Seed[] = sampleSeeds();
  private readonly formulas: readonly string[] = formulasOf([...this.small, ...this.samples]);

  constructor(private readonly seed: number) {}

  /** Of ten mutants four are of parts, four of formulas, two of bytes; one in twelve of parts or bytes is of a sample, which takes its time. */
  mutant(number: number): Mutant {
    const draws = drawsOf(Math.imul(this.seed + 1, 0x9e3779b1) ^ Math.imul(number + 1, 0x85ebca6b));
    const kind = draws.below(10);
    if (kind < 4) return formulaMutant(this.formulas, draws);
    const { name, bytes } = draws.pick(draws.onceIn(12) ? this.samples : this.small);
    return kind < 8 ? xmlMutant(name, bytes, draws) : rawMutant(name, bytes, draws);
  }
}
