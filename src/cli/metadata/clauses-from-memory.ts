import { profiles, standards, type Check, type Standard } from "../../core/index";
import { rangeText } from "../../functions/judgement/validity/table";
import { type Outcome, writeTable } from "./command";

const table = {
  name: "table of what is from memory",
  start: "| standard | what it says, by memory | clause or subject | words to look for |\n|---|---|---|---|\n",
  end: "\n\n",
};

type Origin = NonNullable<Check["origin"]>;

/** Every statement of a standard with its content, by the symbols of VALIDITYCHECKS if it is a check. */
function collectStatements(standard: Standard): (readonly [what: string, origin: Origin | undefined])[] {
  const { correction, technique, leakageArea, directions, stationWind, checks } = profiles[standard];
  const limits = Object.entries({ ...checks, ...(stationWind && { "wind at a weather station": stationWind }) });
  return [
    [`correction by ${correction.value}`, correction],
    [`technique ${technique.value}`, technique],
    [`leakage area "${leakageArea?.value}"`, leakageArea],
    [`directions: ${directions.value}`, directions],
    ...limits.map(
      ([name, limit]) => [`${name} ${rangeText(limit)}${limit.binding ? "" : ", advisory"}`, limit] as const,
    ),
  ];
}

/** A row for each clause and its words: statements settled by the same words share a row, as do standards of one edition. */
function writeClauseRows(): string {
  const rows = new Map<string, { readonly cells: readonly [string, string, string]; readonly said: Set<string> }>();
  for (const standard of standards) {
    for (const [what, origin] of collectStatements(standard)) {
      if (origin?.mark !== "M") continue;
      const cells = [profiles[standard].edition, origin.clause, `“${origin.find}”`] as const;
      const key = cells.join("|");
      const row = rows.get(key) ?? { cells, said: new Set<string>() };
      rows.set(key, { ...row, said: row.said.add(what) });
    }
  }
  return [...rows.values()]
    .map(({ cells: [edition, clause, find], said }) => `| ${edition} | ${[...said].join("; ")} | ${clause} | ${find} |`)
    .join("\n");
}

/** Writes what the standards' profiles hold from memory into DEVELOPERS.md; with `check` it writes nothing and fails if the table differs. */
export function runClausesFromMemoryCommand(file: string, check: boolean): Outcome {
  return writeTable(file, table, writeClauseRows(), check);
}
