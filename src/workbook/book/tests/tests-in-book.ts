import { rowsOf } from "../../../functions/cells/cells";
import type { AddInCall, AddInRegistry } from "../../formula/calls/add-in";
import type { Evaluation } from "../../formula/evaluation";
import type { Book } from "../../model";
import { type Call, findCalls } from "../add-in-calls";
import { type Place, placeKey } from "../area";
import { Inspector } from "../inspector";
import { findTwins, listTwins, type Twins } from "../like-formulas";
import { type ComputedRun, computeRuns, isNear, type RefusedRun } from "./computed-runs";
import { type EnteredRun, groupCallsByRun } from "./entered-runs";
import { findLimits, type TestLimit } from "./test-limits";

/** A house with everything measured in it. */
export interface House {
  /** Its runs as entered; empty if the formulas do not say where. */
  readonly runs: readonly EnteredRun[];
  readonly tests: readonly HouseTest[];
}

/** One test of a house: the runs, in one direction or both, that make one result. */
export interface HouseTest {
  readonly runs: readonly ComputedRun[];
  /** What the workbook compares its results with. */
  readonly limits: readonly TestLimit[];
}

/** Two runs of one house in opposite directions. */
export type DirectionPair = readonly [one: EnteredRun, other: EnteredRun];

/**
 * The tests in an evaluated workbook: houses → tests → runs with their directions → limits. A run is read twice, as far as each is possible:
 * as entered, by the ranges in its formula, and as computed, by the values that reached the function. Each part is read when first asked for.
 */
export class TestsInBook {
  private readonly known: Partial<{
    calls: readonly Call[];
    twins: readonly Twins[];
    groups: EnteredRun[][];
    enteredAt: ReadonlyMap<string, EnteredRun>;
    pairs: DirectionPair[];
    computed: { readonly runs: ComputedRun[]; readonly refused: RefusedRun[] };
    tests: HouseTest[];
    houses: House[];
    homes: ReadonlyMap<EnteredRun, ReadonlySet<EnteredRun>>;
  }> = {};

  /** @param recorded The calls of add-in functions that the evaluation made, with their arguments. */
  constructor(
    private readonly view: Inspector,
    private readonly recorded: readonly AddInCall[],
  ) {}

  /** Every call of an add-in function in the book's formulas. */
  get calls(): readonly Call[] {
    return (this.known.calls ??= findCalls(this.view));
  }

  /** Pairs of sheets of the same layout, such as those of the two directions. */
  get twins(): readonly Twins[] {
    return (this.known.twins ??= findTwins(this.view));
  }

  /** The calls that take the same series of readings with the same exclusions; each with its own settings. */
  get callsByRun(): readonly (readonly EnteredRun[])[] {
    return (this.known.groups ??= groupCallsByRun(this.view, this.calls));
  }

  /** Every run as entered; one used by several functions counts once. */
  get entered(): readonly EnteredRun[] {
    return this.callsByRun.flatMap(([first]) => first ?? []);
  }

  /** Runs of one house in the two directions: on sheets of the same layout, or with their volume from the same cells. */
  get pairs(): readonly DirectionPair[] {
    return (this.known.pairs ??= this.pairDirections());
  }

  /** Every run as computed, in the order of the sheets; one computed several times is listed once. */
  get computed(): readonly ComputedRun[] {
    return this.compute().runs;
  }

  /** The calls that have no result yet, with the reason. */
  get refused(): readonly RefusedRun[] {
    return this.compute().refused;
  }

  /** The computed runs grouped into tests, with the limits of each. */
  get tests(): readonly HouseTest[] {
    return (this.known.tests ??= groupRuns(this.computed, this.recorded).map((runs) => this.describeTest(runs)));
  }

  /** A test of the given runs, which a person may choose otherwise than the workbook does. */
  describeTest(runs: readonly ComputedRun[]): HouseTest {
    const { recorded } = this;
    let limits: TestLimit[] | undefined;
    return {
      runs,
      get limits() {
        return (limits ??= findLimits(runs, recorded));
      },
    };
  }

  /** The houses in the order of their first runs; a test whose house its formulas do not show is a house by itself. */
  get houses(): readonly House[] {
    return (this.known.houses ??= this.findHouses());
  }

  private compute(): { readonly runs: ComputedRun[]; readonly refused: RefusedRun[] } {
    return (this.known.computed ??= computeRuns(this.view.book, this.recorded));
  }

  private pairDirections(): DirectionPair[] {
    const pairs: DirectionPair[] = [];
    const { entered } = this;
    for (const [index, one] of entered.entries()) {
      for (const other of entered.slice(index + 1)) {
        if (one.direction === other.direction) continue;
        const areTwins = listTwins(this.twins, one.pressures.sheet).includes(other.pressures.sheet);
        const volume = this.findVolumeSource(one);
        if (areTwins || (volume !== "" && volume === this.findVolumeSource(other))) pairs.push([one, other]);
      }
    }
    return pairs;
  }

  private findVolumeSource(run: EnteredRun): string {
    const place = run.settings.get("volume")?.place;
    if (!place) return "";
    const read = this.view.listPrecedents(place).map((area) => this.view.formatArea(area));
    return read.length > 0 ? read.join(" ") : this.view.formatAddress(place);
  }

  /** Whether the formulas show that runs were made in one house. */
  areOfOneHouse([first, ...others]: readonly EnteredRun[]): boolean {
    const home = first && this.homes.get(first);
    return home !== undefined && others.every((run) => home.has(run));
  }

  /** The runs of the house that each run was made in: those it is paired with, at any remove. */
  private get homes(): ReadonlyMap<EnteredRun, ReadonlySet<EnteredRun>> {
    if (this.known.homes) return this.known.homes;
    const homes = new Map<EnteredRun, ReadonlySet<EnteredRun>>(this.entered.map((run) => [run, new Set([run])]));
    for (const [one, other] of this.pairs) {
      const joined = new Set([...(homes.get(one) ?? []), ...(homes.get(other) ?? [])]);
      for (const run of joined) homes.set(run, joined);
    }
    return (this.known.homes = homes);
  }

  private findHouses(): House[] {
    const { homes } = this;
    const testsOf = new Map<ReadonlySet<EnteredRun>, HouseTest[]>();
    const others: House[] = [];
    for (const test of this.tests) {
      const [entered] = test.runs.flatMap((run) => this.findEntered(run) ?? []);
      const home = entered && homes.get(entered);
      if (home) testsOf.set(home, [...(testsOf.get(home) ?? []), test]);
      else others.push({ runs: [], tests: [test] });
    }
    const houses = [...new Set(homes.values())].map((home) => ({ runs: [...home], tests: testsOf.get(home) ?? [] }));
    return [...houses, ...others];
  }

  /** The run that a call takes; undefined if it takes none. */
  findRunOfCall({ place }: Call): EnteredRun | undefined {
    return this.callsByRun.flat().find(({ call }) => placeKey(call.place) === placeKey(place));
  }

  /** Where a computed run was entered; undefined if its formula does not say. */
  findEntered({ place, direction }: ComputedRun): EnteredRun | undefined {
    this.known.enteredAt ??= new Map(
      this.callsByRun.flatMap((runs) => runs.map((run) => [nameRun(run.call.place, run.direction), runs[0]!] as const)),
    );
    return this.known.enteredAt.get(nameRun(place, direction));
  }
}

/** A cell may compute both directions. */
const nameRun = (place: Place, direction: string | undefined): string => `${placeKey(place)} ${direction}`;

/** The tests of a book after an evaluation that recorded its calls of the add-in. */
export function readTests(
  book: Book,
  evaluation: Evaluation,
  addIn: AddInRegistry,
  recorded: readonly AddInCall[],
): TestsInBook {
  return new TestsInBook(new Inspector(book, evaluation, addIn, undefined), recorded);
}

/**
 * Runs that make one test: those whose results the workbook averages over both directions; otherwise the only depressurization with the only pressurization
 * of the workbook, or of one sheet. Every other run is a test by itself: which runs of many houses belong together is not guessed.
 */
function groupRuns(runs: readonly ComputedRun[], recorded: readonly AddInCall[]): ComputedRun[][] {
  const groups: ComputedRun[][] = [];
  const left = new Set(runs);
  const take = (group: readonly ComputedRun[]): void => {
    groups.push([...group]);
    for (const run of group) left.delete(run);
  };
  for (const { id, given } of recorded) {
    if (id !== "AVERAGEDRESULT") continue;
    const [depressurization = [], pressurization = []] = given.slice(0, 2).map(listNumbers);
    const averaged = [...left].filter(({ direction, results }) => {
      const values = direction === "depressurization" ? depressurization : pressurization;
      return direction !== undefined && results.some(({ value }) => values.some((other) => isNear(value, other)));
    });
    if (averaged.length > 1) take(averaged);
  }
  const sheets = [...new Set([...left].map(({ sheetName }) => sheetName))];
  for (const candidates of [[...left], ...sheets.map((name) => [...left].filter((run) => run.sheetName === name))]) {
    const remaining = candidates.filter((run) => left.has(run));
    const isPair = remaining.length === 2 && remaining[0]?.direction !== remaining[1]?.direction;
    if (isPair && remaining.every(({ direction, flowUnit }) => direction && flowUnit === remaining[0]?.flowUnit))
      take(remaining);
  }
  for (const run of left) groups.push([run]);
  const findFirst = (group: readonly ComputedRun[]) => Math.min(...group.map((run) => runs.indexOf(run)));
  return groups.sort((one, other) => findFirst(one) - findFirst(other));
}

function listNumbers(argument: unknown): number[] {
  return rowsOf(argument)
    .flat()
    .filter((cell) => typeof cell === "number");
}
