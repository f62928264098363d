import { assumedExponent, usualBend } from "../../core/index";
import { differenceFromMethod, fromMethod, unitSystem, unitSystems } from "../cells/units";
import { type Choice, explainWords } from "../choices";
import { assumed } from "../uncertainty/assumptions";
import { type Label, labels, type Labels } from "./labels";
import { degrees, labelGroups, type Meaning } from "./meanings";
import { defaults } from "./settings";
import takers from "./takers.json";

type SystemName = (typeof unitSystems)[number];

/** The same thing in each system of units. */
type BySystem<Value> = Readonly<Record<SystemName, Value>>;

/** Everything that is known of one label. */
export interface Setting {
  readonly label: string;
  readonly group: string;
  readonly means: string;
  /** Unit, or what kind of value it is. */
  readonly unit: BySystem<string>;
  /** What counts as long as the value is blank. */
  readonly ifBlank: BySystem<string>;
  readonly example: BySystem<string | number>;
  /** The words that it takes; without a meaning where the label itself says it. */
  readonly words: readonly (Pick<Choice, "word"> & Partial<Choice>)[];
  readonly zeroIsValue: boolean;
  /** The functions that read it; of one for the record, those that take it. */
  readonly functions: readonly string[];
  /** True where no function reads it. */
  readonly isRecord: boolean;
}

/** What the functions assume, by the label that replaces it, in the method's units. */
const known: Readonly<Record<string, string | number>> = {
  ...assumed,
  ...defaults,
  exponent: assumedExponent,
  "extrapolation allowance": usualBend,
};

const bySystem = <Value>(write: (name: SystemName) => Value): BySystem<Value> =>
  Object.fromEntries(unitSystems.map((name) => [name, write(name)])) as BySystem<Value>;

function describe(group: string, label: keyof Labels, { means, unit, ifBlank, example }: Meaning): Setting {
  const { measures, words = [], zeroIsValue }: Label = labels[label];
  const ownUnit = (name: SystemName): string => {
    const system = unitSystem(name);
    if (measures !== undefined) return system[measures];
    return typeof unit === "function" ? unit(system) : (unit ?? (words.includes("yes") ? "yes or no" : "word"));
  };
  const inSystem = (value: string | number, name: SystemName): string | number => {
    const system = unitSystem(name);
    if (typeof value === "string") return value;
    if (measures !== undefined) return asTyped(value, fromMethod(value, measures, system));
    return unit === degrees ? asTyped(value, differenceFromMethod(value, system)) : value;
  };
  const isRecord = takers[label].length === 0;
  const blank = ifBlank ?? known[label] ?? "";
  return {
    label,
    group,
    means,
    unit: bySystem(ownUnit),
    ifBlank: bySystem((name) => String(inSystem(blank, name))),
    example: bySystem((name) =>
      ownUnit(name) === "date" && typeof example === "number" ? writeDay(example) : inSystem(example, name),
    ),
    words: explainWords(words) ?? words.map((word) => ({ word })),
    zeroIsValue: zeroIsValue === true,
    // Every function that takes settings reads their units.
    functions: isRecord ? takers.units : takers[label],
    isRecord,
  };
}

/** A converted value with as many digits as a person would type. */
const asTyped = (value: number, converted: number): number =>
  converted === value ? value : Number(converted.toPrecision(4));

/** One text for all systems; what a system has in common with SI is not repeated. */
export function inEachSystem(values: BySystem<string | number>): string {
  const { SI: usual, ...others } = values;
  const different = Object.entries(others).filter(([, value]) => value !== usual);
  const told = different.map(([name, value]) => `${name}: ${value}`).join("; ");
  return told === "" ? String(usual) : `${usual} (${told})`;
}

/** A day as a person types it, from Excel's count of days. */
function writeDay(day: number): string {
  return new Date((day - 25_569) * 86_400_000).toISOString().slice(0, 10);
}

/** Every label of the settings, in the order in which a tester fills them in. */
export const settingsReference: readonly Setting[] = labelGroups.flatMap(({ name, meanings }) =>
  Object.entries(meanings).map(([label, meaning]) => describe(name, label as keyof Labels, meaning)),
);

/** The settings in which every one of the words occurs, in a label, a meaning, a word or a function that reads them. */
export function findSettings(words: string): readonly Setting[] {
  const wanted = words.toLowerCase().split(/\s+/).filter(Boolean);
  return settingsReference.filter(({ label, group, means, words: taken, functions }) => {
    const text = [label, group, means, ...taken.map(({ word }) => word), ...functions].join(" ").toLowerCase();
    return wanted.every((word) => text.includes(word));
  });
}
