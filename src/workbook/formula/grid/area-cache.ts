import type { HandedOn } from "./reading-notes";
import type { Matrix, SheetArea } from "../values/value";

interface ReadArea {
  readonly matrix: Matrix;
  readonly handedOn: Readonly<HandedOn>;
}

/** The most values kept at a time, so that memory stays within bounds. */
const mostValues = 2_000_000;

/** Areas read into memory once all their cells were evaluated: a thousand lookups in one column read it once. */
export class AreaCache {
  private readonly areas = new Map<string, ReadArea>();
  private size = 0;

  get(area: SheetArea): ReadArea | undefined {
    return this.areas.get(keyOf(area));
  }

  keep(area: SheetArea, read: ReadArea): void {
    const added = read.matrix.values.length;
    if (this.size + added > mostValues) {
      this.areas.clear();
      this.size = 0;
    }
    this.areas.set(keyOf(area), read);
    this.size += added;
  }
}

const keyOf = ({ sheet, top, left, bottom, right }: SheetArea): string => `${sheet} ${top} ${left} ${bottom} ${right}`;
