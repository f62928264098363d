import { areaKey, isSingleCell, type Place, placeKey, type SheetArea } from "./area";

/** What a cell directly depends on: a stored cell, or an area of several cells with its key. */
type Input = Place | { readonly area: SheetArea; readonly key: string };

/** What is known of single cells: what is stored, which array fills a cell, and what its formula reads. */
interface KnownCells {
  findCell(place: Place): unknown;
  findOwner(place: Place): Place | undefined;
  listCells(area: SheetArea): readonly Place[];
  listPrecedents(place: Place): readonly SheetArea[];
}

/** Which cells of an evaluated book depend on which, at any remove. */
export class Dependence {
  private readonly inputs = new Map<number, readonly Input[]>();
  /** What was found for areas before: several checks ask about the same result. */
  private readonly upstream = new Map<string, ReadonlyMap<number, Place>>();
  /** Of the cells of a set that was asked for: which cells depend on one of them. */
  private readonly known = new WeakMap<ReadonlySet<number>, Map<number, boolean>>();

  constructor(private readonly book: KnownCells) {}

  /**
   * Every cell that the given areas depend on, at any remove, themselves included.
   * @param asFarAs What these cells in turn depend on is left out.
   */
  findUpstream(areas: readonly SheetArea[], asFarAs?: ReadonlySet<number>): ReadonlyMap<number, Place> {
    if (asFarAs) return this.collectUpstream(areas, asFarAs);
    const key = areas.map(areaKey).join();
    let found = this.upstream.get(key);
    if (!found) this.upstream.set(key, (found = this.collectUpstream(areas)));
    return found;
  }

  /** Whether the given areas depend on any of some cells, at any remove. What is found out about cells on the way is kept for the next question. */
  dependsOn(areas: readonly SheetArea[], cells: ReadonlySet<number>): boolean {
    let known = this.known.get(cells);
    if (!known) this.known.set(cells, (known = new Map<number, boolean>()));
    /** The cells met, each with the one that reads it. */
    const readers = new Map<number, number | undefined>();
    const waiting: Place[] = [];
    const entered = new Set<string>();
    const meets = (cell: Place, reader: number | undefined): boolean => {
      const key = placeKey(cell);
      if (readers.has(key) || known.get(key) === false) return false;
      readers.set(key, reader);
      waiting.push(cell);
      if (!cells.has(key) && !known.has(key)) return false;
      for (let at: number | undefined = key; at !== undefined; at = readers.get(at)) known.set(at, true);
      return true;
    };
    for (const area of areas) if (this.book.listCells(area).some((cell) => meets(cell, undefined))) return true;
    for (let place = waiting.pop(); place; place = waiting.pop()) {
      const key = placeKey(place);
      for (const input of this.listInputs(place))
        if (this.enter(input, entered).some((cell) => meets(cell, key))) return true;
    }
    for (const key of readers.keys()) known.set(key, false);
    return false;
  }

  private collectUpstream(areas: readonly SheetArea[], asFarAs?: ReadonlySet<number>): ReadonlyMap<number, Place> {
    const found = new Map<number, Place>();
    const waiting: Place[] = areas.flatMap((area) => this.book.listCells(area));
    const entered = new Set<string>();
    for (let place = waiting.pop(); place; place = waiting.pop()) {
      const key = placeKey(place);
      if (found.has(key)) continue;
      found.set(key, place);
      if (asFarAs?.has(key)) continue;
      for (const input of this.listInputs(place)) for (const cell of this.enter(input, entered)) waiting.push(cell);
    }
    return found;
  }

  /** The cells of an input; those of an area only the first time. */
  private enter(input: Input, entered: Set<string>): readonly Place[] {
    if (!("area" in input)) return [input];
    if (entered.has(input.key)) return [];
    entered.add(input.key);
    return this.book.listCells(input.area);
  }

  private listInputs(place: Place): readonly Input[] {
    const key = placeKey(place);
    let found = this.inputs.get(key);
    if (!found) this.inputs.set(key, (found = this.collectInputs(place)));
    return found;
  }

  private collectInputs(place: Place): Input[] {
    const owner = this.book.findOwner(place);
    if (owner) return [owner];
    return this.book.listPrecedents(place).flatMap((area): Input[] => {
      if (!isSingleCell(area)) return [{ area, key: areaKey(area) }];
      const cell = { sheet: area.sheet, row: area.top, column: area.left };
      return this.book.findCell(cell) ? [cell] : [];
    });
  }
}
