import { stringifyTokens, tokenize, translateTokensToA1, translateTokensToR1C1, type Token } from "@borgar/fx/xlsx";
import { cellAddress } from "../../formula/parse/address";
import { refusalOf } from "../../formula/parse/enclosed";

/** A formula written once and used by a block of cells, its references moving along (ECMA-376 part 1, 18.3.1.40, t="shared"). */
export class SharedFormula {
  private relative: Token[] | undefined;

  constructor(
    private readonly text: string,
    private readonly row: number,
    private readonly column: number,
  ) {}

  /** The formula as the given cell has it. */
  at(row: number, column: number): string {
    // What is not read at all is not moved either.
    if (refusalOf(this.text) !== undefined) return this.text;
    this.relative ??= translateTokensToR1C1(tokenize(this.text), cellAddress(this.row, this.column));
    return stringifyTokens(translateTokensToA1(this.relative, cellAddress(row, column)));
  }
}
