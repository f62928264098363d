import type { Area } from "../../model";
import { parseArea } from "../address";
import { limits } from "../limits";
import { booleanAttribute } from "../xml/xml";

/** What a sheet part says outside its cells: hidden columns, merged cells, a filter. */
export class SheetFrame {
  readonly hiddenColumns = new Set<number>();
  readonly mergedAreas: Area[] = [];
  /** "Transition formula evaluation" (18.3.1.82): text counts as 0, comparisons give 0 and 1, and more. */
  transitionRules = false;
  private filterArea: Area | undefined;
  private filterWorks = false;
  /** Custom views follow the sheet's own filter and hold filters of their own, which are not at work. */
  private inCustomViews = false;
  private columnsRead = 0;

  /** The range of the sheet's filter, when one hides rows. */
  get filter(): Area | undefined {
    return this.filterWorks ? this.filterArea : undefined;
  }

  /** Rows are hidden by a filter that stands nowhere in the sheet: an advanced one, in place. */
  get isFilteredUnseen(): boolean {
    return this.filterWorks && this.filterArea === undefined;
  }

  open(name: string, attributes: Record<string, string>): void {
    switch (name) {
      case "sheetPr":
        this.filterWorks ||= booleanAttribute(attributes["filterMode"]);
        this.transitionRules = booleanAttribute(attributes["transitionEvaluation"]);
        break;
      case "col":
        this.readColumns(attributes);
        break;
      case "mergeCell": {
        const area = parseArea(attributes["ref"] ?? "");
        if (area) this.mergedAreas.push(area);
        break;
      }
      case "autoFilter":
        if (!this.inCustomViews) this.filterArea = parseArea(attributes["ref"] ?? "");
        break;
      case "filterColumn":
        if (!this.inCustomViews) this.filterWorks = true;
        break;
      case "customSheetViews":
        this.inCustomViews = true;
        break;
    }
  }

  /** Column records follow each other without overlap (ECMA-376 part 1, 18.3.1.13); each column is looked at once. */
  private readColumns({ min, max, hidden }: Record<string, string>): void {
    const first = Math.max(Number(min), this.columnsRead + 1);
    const last = Math.min(Number(max), limits.columns);
    if (!(first <= last)) return;
    this.columnsRead = last;
    if (!booleanAttribute(hidden)) return;
    for (let column = first; column <= last; column++) this.hiddenColumns.add(column - 1);
  }
}
