import { WorkbookProblem } from "../file/problem";

/** In characters: a browser opens such a page slowly, a much longer one not at all. */
const longestPage = 64 * 1024 * 1024;

/** Counts the rows of a page as they are written, so that a page without end is refused early. */
export class PageLength {
  private written = 0;

  counted(row: string): string {
    this.written += row.length;
    if (this.written > longestPage) {
      throw new WorkbookProblem(
        "too large",
        `a page of this workbook would have more than ${longestPage} characters, because its texts are long`,
      );
    }
    return row;
  }
}
