import type { Formula } from "../../model";
import { parseArea } from "../address";
import { limits } from "../limits";
import { sentence, WorkbookProblem } from "../problem";
import { SharedFormula } from "./shared-formula";
import { decodeText } from "../xml/text";

/** A cell's <f> element: its attributes, its text, and whether the cell is marked as a dynamic array. */
interface FormulaElement {
  readonly row: number;
  readonly column: number;
  readonly attributes: Record<string, string>;
  readonly text: string;
  readonly dynamic: boolean;
}

/** Makes formulas of one sheet's <f> elements, shared ones expanded (ECMA-376 part 1, 18.3.1.40). */
export class FormulaReader {
  private readonly shared = new Map<string, SharedFormula>();

  constructor(
    /** Counts the characters of all sheets, since a long formula shared by many cells would fill the memory. */
    private readonly counter: { formulaLength: number },
    private readonly problem: (what: string) => Error,
  ) {}

  /** Undefined for an empty element, which is no formula. */
  read(element: FormulaElement): Formula | undefined {
    const formula = this.formulaOf(element);
    this.counter.formulaLength += formula?.text.length ?? 0;
    if (this.counter.formulaLength > limits.formulaLength) {
      throw new WorkbookProblem(
        "too large",
        `the workbook's formulas have more than ${limits.formulaLength} characters`,
      );
    }
    return formula;
  }

  private formulaOf({ row, column, attributes, text: written, dynamic }: FormulaElement): Formula | undefined {
    const text = decodeText(written.startsWith("=") ? written.slice(1) : written);
    const { t: type = "normal", ref = "" } = attributes;
    const area = parseArea(ref);
    switch (type) {
      case "shared":
        return { text: this.sharedText(attributes["si"] ?? "", text, row, column) };
      case "array":
        if (!area) throw this.problem("has an array formula without a range");
        if (area.top !== row || area.left !== column)
          throw this.problem(sentence`has an array formula for ${ref}, which does not begin at it`);
        return dynamic ? { text, array: area, dynamic } : { text, array: area };
      case "dataTable":
        return area ? { text, array: area, dataTable: true } : { text, dataTable: true };
      case "normal":
        if (text === "") return undefined;
        return dynamic ? { text, dynamic } : { text };
      default:
        throw this.problem(sentence`has a formula of the unknown type "${type}"`);
    }
  }

  private sharedText(index: string, text: string, row: number, column: number): string {
    if (text !== "") this.shared.set(index, new SharedFormula(text, row, column));
    const shared = this.shared.get(index);
    if (!shared) throw this.problem(sentence`uses the shared formula ${index}, which is not defined before it`);
    return text === "" ? shared.at(row, column) : text;
  }
}
