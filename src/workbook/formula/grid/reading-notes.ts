import { ErrorValue } from "../../model";
import type { Slot } from "./slot";
import type { Scalar } from "../values/value";

/** What a cell takes over from those that it reads, beside their values. */
export interface HandedOn {
  depth: number;
  onClock: boolean;
  readsError: boolean;
  afterError: boolean;
}

/** What an evaluation notes while it reads cells, for the cell that it evaluates or for a whole area read for more than one. */
export class ReadingNotes {
  /** The cell being evaluated. */
  current: Slot | undefined;
  private area: HandedOn | undefined;

  /** What the cells read meanwhile hand on, apart from what the cell being evaluated has already. */
  ofArea(read: () => void): Readonly<HandedOn> {
    const area: HandedOn = { depth: 0, onClock: false, readsError: false, afterError: false };
    this.area = area;
    try {
      read();
    } finally {
      this.area = undefined;
    }
    return area;
  }

  /** Hands on to the cell being evaluated what an area read before has. */
  takeOver({ depth, onClock, readsError, afterError }: Readonly<HandedOn>): void {
    if (!this.current) return;
    this.current.depth = Math.max(this.current.depth, depth);
    this.current.onClock ||= onClock;
    this.current.readsError ||= readsError;
    this.current.afterError ||= afterError;
  }

  /** Notes what the cell hands on that holds the value or, in an array, whose formula gave it. */
  takeFrom(source: Slot): void {
    const reader = this.area ?? this.current;
    if (!reader) return;
    reader.depth = Math.max(reader.depth, source.depth);
    reader.onClock ||= source.onClock;
  }

  /** Notes that a value read is an error, or rests on one that began elsewhere; the slot is undefined for a constant. */
  noteError(value: Scalar, slot: Slot | undefined): void {
    const reader = this.area ?? this.current;
    if (!reader) return;
    const source = slot?.owner ?? slot;
    // Where an array failed as a whole, its other cells are blank, and what reads them goes on from an error too.
    const failed = value instanceof ErrorValue || (value === null && source?.value instanceof ErrorValue);
    reader.readsError ||= failed;
    reader.afterError ||= failed || source?.afterError === true;
    if (slot && failed) slot.isErrorRead = true;
  }
}
