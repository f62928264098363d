import type { CellFunctions } from "./evaluate";
import type { Setting } from "./sheet";

const knownBefore = new WeakMap<CellFunctions, Map<string, boolean>>();

/** Whether the functions know a label and its value; they may be of a version that does not. */
export function isKnown(functions: CellFunctions, setting: Setting): boolean {
  const known = knownBefore.get(functions) ?? new Map<string, boolean>();
  knownBefore.set(functions, known);
  const name = setting.join("\n");
  const before = known.get(name);
  if (before !== undefined) return before;
  const column = (...values: number[]) => values.map((value) => [value]);
  const settings = [
    ["flow basis", "through the envelope"],
    ["indoor temperature", 20],
    ["outdoor temperature", 10],
  ];
  const test = ["pressurization", column(20, 40, 60), column(100, 160, 210), column(0.1), column(0.1)];
  let knows = true;
  try {
    functions.get("TESTRESULT")!(...test, [...settings, setting], null);
  } catch (error) {
    // Any other refusal means that the words were understood.
    knows = !(error instanceof Error && /unknown label|is one of/.test(error.message));
  }
  known.set(name, knows);
  return knows;
}
