import { mkdtempSync, readFileSync, rmSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import type { Way } from "./runs/commands";
import { hasNoEnd, InProcess } from "./runs/in-process";
import type { Outcome } from "./runs/outcome";
import { runProgram } from "./runs/program";

/** Tries workbooks one at a time: writes each into a folder of its own and sees that it is unchanged afterwards. */
export class Trial {
  private readonly folder = mkdtempSync(join(tmpdir(), "fuzz-in-"));
  private readonly inProcess: InProcess;

  constructor(helper: string) {
    this.inProcess = new InProcess(helper);
  }

  /** Runs the ways in process, then those of `programs` as a user starts them. */
  async run(bytes: Uint8Array, ways: readonly Way[], programs: readonly Way[] = []): Promise<Outcome[]> {
    const file = join(this.folder, "input.xlsx");
    writeFileSync(file, bytes);
    const { cell, outcomes } = await this.inProcess.run(file, ways);
    const all = [...outcomes];
    for (const way of programs) {
      if (hasNoEnd(all)) break;
      all.push(await runProgram(way, file, cell));
    }
    if (Buffer.compare(readFileSync(file), bytes) === 0) return all;
    const last = all.at(-1)!;
    return [...all.slice(0, -1), { ...last, faults: [...last.faults, { kind: "input overwritten", words: file }] }];
  }

  close(): void {
    this.inProcess.close();
    rmSync(this.folder, { recursive: true, force: true });
  }
}
