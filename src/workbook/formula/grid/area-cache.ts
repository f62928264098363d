import type { SheetArea } from "../values/value";

/** The most values kept at a time, so that memory stays within bounds. */
const mostValues = 2_000_000;

/** What was found in areas once all their cells were evaluated: a thousand lookups in one column read it once. */
export class AreaCache<T> {
  private readonly areas = new Map<string, T>();
  private size = 0;

  get(area: SheetArea): T | undefined {
    return this.areas.get(keyOf(area));
  }

  keep(area: SheetArea, found: T, added: number): void {
    if (this.size + added > mostValues) {
      this.areas.clear();
      this.size = 0;
    }
    this.areas.set(keyOf(area), found);
    this.size += added;
  }
}

const keyOf = ({ sheet, top, left, bottom, right }: SheetArea): string => `${sheet} ${top} ${left} ${bottom} ${right}`;
