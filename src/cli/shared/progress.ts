import { withVisibleMarks } from "./visible-marks";

const quietMilliseconds = 2_000;

/** Tells on stderr what is going on: one line that renews itself on a terminal, else a plain line now and then on long work. */
export class Progress {
  private readonly terminal = process.stderr.isTTY;
  private lastLine = Date.now();
  private shown = false;

  /** Plain lines come only when `long` or when some seconds have passed without one. */
  step(text: string, long = false): void {
    const line = withVisibleMarks(text);
    if (this.terminal) {
      const width = Math.max(20, process.stderr.columns - 1);
      process.stderr.write(`\r\u001b[K${line.slice(0, width)}`);
      this.shown = true;
      return;
    }
    if (!long && Date.now() - this.lastLine < quietMilliseconds) return;
    this.lastLine = Date.now();
    process.stderr.write(`${line}\n`);
  }

  /** Clears the line before something else is printed. */
  clear(): void {
    if (this.shown) process.stderr.write("\r\u001b[K");
    this.shown = false;
  }
}
