import type { RunPlaces } from "./direction";
import { onRun, shadowBlock } from "./shadow-places";

/** One step of the main line by native functions. */
export interface ShadowLine {
  readonly key: string;
  /** Marked for subscripts and superscripts. */
  readonly label: string;
  readonly shown: string;
  readonly formula: string;
  /** The add-in's figure; absent where it shows none. */
  readonly compared?: string;
  readonly digits: number;
  readonly unit: string;
  /** In words, for a reader. */
  readonly how: string;
  /** It holds for the ordinary technique alone. */
  readonly ofLine?: true;
}

type Rest = Partial<Pick<ShadowLine, "compared" | "digits" | "unit" | "how" | "ofLine">>;

/** The lines of one run while they are listed; each one may call those before it. */
export class ShadowLines {
  readonly lines: ShadowLine[] = [];
  /** Columns of ln Δp and ln q. */
  readonly x: string;
  readonly y: string;
  readonly there: (reference: string) => string;
  private readonly first: number;

  constructor(
    readonly run: RunPlaces,
    index: number,
  ) {
    const block = shadowBlock(index);
    const readings = (letter: string) => `$${letter}$${block.readings}:$${letter}$${block.last}`;
    [this.x, this.y] = [readings("J"), readings("K")];
    this.first = block.lines;
    this.there = onRun(run);
  }

  /** The cell of an earlier line. */
  at(key: string): string {
    const place = this.lines.findIndex((line) => line.key === key);
    if (place < 0) throw new Error(`${key} comes later`);
    return `D${this.first + place}`;
  }

  /** The add-in's figure in the table of the whole test. */
  table(symbol: string, column: "value" | "lower" | "upper" = "value"): string {
    return this.run.wholeTest[column](symbol);
  }

  step(key: string, label: string, shown: string, formula: string, rest: Rest): void {
    this.lines.push({ key, label, shown, formula, digits: 4, unit: "", how: "", ...rest });
  }

  /** Density of the air at the device, and of that in the leaks, once both are listed. */
  densities(): readonly [device: string, leaks: string] {
    const [inside, outside] = [this.at("rho_i"), this.at("rho_e")];
    return this.run.direction === "depressurization" ? [inside, outside] : [outside, inside];
  }
}
