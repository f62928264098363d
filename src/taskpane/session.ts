import type { Conversation } from "../views/conversation";
import type { PreviewAnswer, ReviewAnswer, WorkbookAnswer } from "../views/desk/answers";
import { formatFirst } from "./port/addresses";
import { PortProblem, type SelectedArea, type WorkbookPort } from "./port/port";
import { Turns } from "./turns";

/** The number under which the desk holds the pane's workbook. */
export const workbookId = 1;

type Watch = (done: number, of: number) => void;

/**
 * The workbook as the pane's tools see it: read when a tool first needs it, and again after it has changed. While nothing tells of changes, it is read
 * each time.
 */
export class Session {
  private answer: Promise<WorkbookAnswer> | undefined;
  private changes = 0;
  private readAt = 0;
  private hearsChanges = false;
  /** Readings follow one another: Excel hands out few copies of the file at a time, and the desk keeps the one that came last. */
  private readonly turns = new Turns();

  constructor(
    readonly port: WorkbookPort,
    readonly desk: Conversation,
    readonly reviewer: Conversation,
  ) {}

  /** Says whether changes are heard from now on; what happened before is not known. */
  hear(hearsChanges: boolean): void {
    this.hearsChanges = hearsChanges;
    this.forget();
  }

  /** What was read no longer holds. */
  forget(): void {
    this.changes += 1;
    this.answer = undefined;
  }

  /** True where the workbook has changed since it was last read, or while it was. */
  get isOutdated(): boolean {
    return this.readAt !== this.changes;
  }

  /** Reads and recalculates the workbook unless it is known already. */
  open(): Promise<WorkbookAnswer> {
    if (this.answer) return this.answer;
    const reading = this.turns.take(() => this.read());
    this.answer = reading;
    const isLast = (): boolean => this.answer === reading;
    reading.then(
      () => {
        if (isLast() && !this.hearsChanges) this.answer = undefined;
      },
      () => {
        if (isLast()) this.answer = undefined;
      },
    );
    return reading;
  }

  private async read(): Promise<WorkbookAnswer> {
    this.readAt = this.changes;
    const content = await this.port.read();
    return "bytes" in content
      ? this.desk.ask("open", [workbookId, content.name, content.bytes])
      : this.desk.ask("openCells", [workbookId, content.name, content.cells]);
  }

  /** What a formula would give in the first of the given cells. */
  async preview(place: SelectedArea, formula: string): Promise<PreviewAnswer> {
    await this.open();
    return this.desk.ask("preview", [workbookId, formatFirst(place), formula]);
  }

  /** Reviews the workbook as it is now, in a worker of its own; says whether it changed meanwhile. */
  async review(watch: Watch): Promise<{ readonly review: ReviewAnswer; readonly isOutdated: boolean }> {
    let before = this.changes;
    const content = await this.turns.take(() => {
      before = this.changes;
      return this.port.read();
    });
    if (!("bytes" in content))
      throw new PortProblem(
        "A review needs the whole file, which this Excel does not hand over here: save the workbook and open it in the review page.",
      );
    const { answer } = await this.reviewer.ask("review", [content.name, content.bytes], watch);
    return { review: answer, isOutdated: this.changes !== before };
  }
}
