import type { Area } from "../../model";
import { parseArea } from "../../book/address";
import { parseBoolean, type XmlPart, type XmlReader } from "../xml/xml";
import type { ConditionalStyle } from "./cell-styles";

/** A conditional formatting rule; the formulas are relative to the first cell of its first area. */
export interface ConditionalRule {
  readonly areas: readonly Area[];
  /** "expression", "cellIs", "containsText", … (ECMA-376 part 1, 18.18.12). */
  readonly kind: string;
  readonly operator: string;
  readonly formulas: readonly string[];
  readonly style: ConditionalStyle;
  readonly priority: number;
  readonly stops: boolean;
}

type Attributes = Record<string, string>;

/** Rules decided by their formula alone, and comparisons with one or two values. */
const judgedKinds =
  /^(expression|cellIs|containsText|notContainsText|beginsWith|endsWith|containsBlanks|notContainsBlanks|containsErrors|notContainsErrors)$/;

/** Streams the conditional formats of a sheet part (ECMA-376 part 1, 18.3.1.18, 18.3.1.10). */
export class ConditionalRules implements XmlReader {
  /** Rules that can be evaluated. */
  readonly judged: ConditionalRule[] = [];
  /** Other rules that change the style: rankings, duplicates, dates. */
  readonly unjudged: ConditionalRule[] = [];
  /** The kinds of all rules not evaluated, including colour scales, bars and icons. */
  readonly otherKinds = new Set<string>();
  private areas: readonly Area[] = [];
  private rule: Attributes | undefined;
  private formulas: string[] = [];
  private collecting = false;

  constructor(private readonly styles: readonly ConditionalStyle[]) {}

  open(name: string, attributes: Attributes, part: XmlPart): void {
    if (name === "conditionalFormatting") {
      this.areas = (attributes["sqref"] ?? "").split(/\s+/).flatMap((text) => parseArea(text) ?? []);
    } else if (name === "cfRule") {
      this.rule = attributes;
      this.formulas = [];
    } else if (name === "formula" && this.rule) {
      this.formulas.push("");
      this.collecting = true;
      part.wantText();
    }
  }

  addText(text: string): void {
    if (this.collecting) this.formulas[this.formulas.length - 1] += text;
  }

  close(name: string, part: XmlPart): void {
    if (name === "formula" && this.collecting) {
      this.collecting = false;
      part.ignoreText();
    } else if (name === "cfRule" && this.rule) {
      this.take(this.rule);
      this.rule = undefined;
    }
  }

  private take({ type: kind = "", operator = "", priority = "0", dxfId, stopIfTrue }: Attributes): void {
    const { areas, formulas } = this;
    const style = dxfId === undefined ? undefined : this.styles[Number(dxfId)];
    const isJudged = judgedKinds.test(kind) && style !== undefined && formulas.length > 0 && areas.length > 0;
    if (!isJudged) this.otherKinds.add(kind);
    if (!style) return;
    const stops = parseBoolean(stopIfTrue);
    const rule = { areas, kind, operator, formulas, style, priority: Number(priority), stops };
    (isJudged ? this.judged : this.unjudged).push(rule);
  }
}
