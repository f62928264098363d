import type { Conversation } from "../views/conversation";
import type { PreviewAnswer, ReviewAnswer, WorkbookAnswer } from "../views/desk/answers";
import { formatSelected } from "./port/addresses";
import { PortProblem, type SelectedArea, type WorkbookPort } from "./port/port";

/** The number under which the desk holds the pane's workbook. */
export const workbookId = 1;

type Watch = (done: number, of: number) => void;

/** The workbook as the pane's tools see it: read when a tool first needs it, and again after it has changed. */
export class Session {
  private answer: Promise<WorkbookAnswer> | undefined;

  constructor(
    readonly port: WorkbookPort,
    readonly desk: Conversation,
    readonly reviewer: Conversation,
  ) {}

  /** What was read no longer holds. */
  forget(): void {
    this.answer = undefined;
  }

  /** Reads and recalculates the workbook unless it is known already. */
  open(): Promise<WorkbookAnswer> {
    if (this.answer) return this.answer;
    const reading = this.read();
    this.answer = reading;
    reading.catch(() => {
      if (this.answer === reading) this.forget();
    });
    return reading;
  }

  private async read(): Promise<WorkbookAnswer> {
    const content = await this.port.read();
    return "bytes" in content
      ? this.desk.ask("open", [workbookId, content.name, content.bytes])
      : this.desk.ask("openCells", [workbookId, content.name, content.cells]);
  }

  /** What a formula would give in the first of the given cells. */
  async preview(place: SelectedArea, formula: string): Promise<PreviewAnswer> {
    await this.open();
    return this.desk.ask("preview", [workbookId, formatSelected({ ...place, rows: 1, columns: 1 }), formula]);
  }

  /** Reviews the workbook as it is now, in a worker of its own. */
  async review(watch: Watch): Promise<ReviewAnswer> {
    const content = await this.port.read();
    if (!("bytes" in content))
      throw new PortProblem(
        "A review needs the whole file, which this Excel does not hand over here: save the workbook and open it in the review page.",
      );
    return (await this.reviewer.ask("review", [content.name, content.bytes], watch)).answer;
  }
}
