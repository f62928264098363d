import type { Grid } from "./grid/grid";
import { toRefusal, NotEvaluated, Pending } from "./values/refusal";
import { spend, readCurrentWork } from "./work-limits";
import type { Slot } from "./grid/slot";
import { formatRoute } from "../formatting";

interface Entry {
  readonly slot: Slot;
  /** Asked for by an evaluation; otherwise only suggested by a reference in the formula, which may never be read. */
  readonly needed: boolean;
}

/**
 * Evaluates every formula cell after those it needs, with an explicit stack: a chain of any length needs no recursion.
 *
 * References named in a formula are evaluated first as a suggestion. What a formula asks for beyond them (INDIRECT, OFFSET,
 * spills) interrupts it until that is done. A circle counts only if each of its cells really asked for the next: a reference to
 * itself in a branch of IF that is not taken is no circle.
 */
export class Scheduler {
  readonly cycles: Slot[][] = [];
  private readonly stack: Entry[] = [];

  constructor(
    private readonly grid: Grid,
    private readonly evaluate: (slot: Slot) => void,
    private readonly suggestions: (slot: Slot, suggest: (other: Slot) => void) => void,
    /** Gives the cell that closes a circle a value to begin with, if the workbook iterates. */
    private readonly seedFor: (slot: Slot) => boolean = () => false,
  ) {}

  /** @param wanted The cells to evaluate, with what they need; by default all. */
  run(wanted: readonly Slot[] = this.grid.formulas): void {
    for (const slot of wanted) {
      this.stack.push({ slot, needed: true });
      while (this.stack.length > 0) this.step();
    }
  }

  private step(): void {
    const { slot } = this.stack.at(-1) as Entry;
    if (slot.progress === "done") {
      this.stack.pop();
      return;
    }
    if (slot.progress === "new") {
      slot.progress = "suggested";
      this.suggestions(slot, (other) => {
        if (other.progress === "new" && !other.postponed) this.stack.push({ slot: other, needed: false });
      });
      if (this.stack.at(-1)?.slot !== slot) return;
    }
    this.attempt(slot);
  }

  private attempt(slot: Slot): void {
    this.grid.wanted.length = 0;
    this.grid.notes.current = slot;
    slot.depth = 0;
    slot.calls = 0;
    slot.onClock = false;
    slot.readsError = false;
    slot.afterError = false;
    slot.largest = 0;
    slot.externals = new Set();
    slot.tolerance = 0;
    try {
      readCurrentWork().startFormula();
      spend(50);
      this.evaluate(slot);
      slot.progress = "done";
    } catch (problem) {
      if (problem instanceof Pending) this.wait(slot);
      else {
        // Any other failure, including too deep nesting, affects only this cell and is listed with it.
        slot.failure = toRefusal(problem);
        slot.progress = "done";
      }
    } finally {
      this.grid.notes.current = undefined;
    }
  }

  private wait(slot: Slot): void {
    slot.progress = "waiting";
    const wanted = [...new Set(this.grid.wanted)];
    const circle = wanted.find((other) => other.progress === "waiting");
    if (circle) this.close(circle);
    else for (const other of wanted) this.stack.push({ slot: other, needed: true });
  }

  /** A cell requested one waiting further down: a real circle, unless a mere suggestion is between them. */
  private close(start: Slot): void {
    const bottom = this.placeOf(start);
    let suggestion = bottom + 1;
    while (suggestion < this.stack.length && this.isWaitedFor(suggestion)) suggestion += 1;
    if (suggestion < this.stack.length) {
      for (const { slot } of this.stack.splice(suggestion)) {
        if (slot.progress === "done") continue;
        slot.progress = "new";
        slot.postponed = true;
      }
      return;
    }
    const circle = this.stack
      .slice(bottom)
      .map(({ slot }) => slot)
      .filter((slot) => slot.progress === "waiting");
    if (this.seedFor(start)) {
      for (const slot of circle) slot.progress = "new";
      return;
    }
    this.cycles.push(circle);
    const route = formatRoute([...circle, start].map((slot) => this.grid.formatAddress(slot)));
    for (const slot of circle) {
      slot.failure = new NotEvaluated(`a circular reference: ${route}`, undefined, "a circular reference");
      slot.progress = "done";
    }
  }

  private placeOf(slot: Slot): number {
    // The lowest place where the slot waits: it may lie on the stack twice, first as a suggestion.
    let place = this.stack.length - 1;
    for (let at = place; at >= 0; at -= 1) if (this.stack[at]?.slot === slot) place = at;
    return place;
  }

  /** True where the entry was pushed because the evaluation below asked for it, or is a sibling not yet begun. */
  private isWaitedFor(place: number): boolean {
    return this.stack[place]?.needed === true;
  }
}
