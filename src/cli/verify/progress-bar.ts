const width = 24;

/** "verify [██████░░░░] 57/200, 3 with findings: house.xlsx" */
export function progressBar(done: number, all: number, withFindings: number, file: string): string {
  const full = Math.round((width * done) / Math.max(1, all));
  const bar = "█".repeat(full) + "░".repeat(width - full);
  return `verify [${bar}] ${done}/${all}, ${withFindings} with findings: ${file}`;
}
