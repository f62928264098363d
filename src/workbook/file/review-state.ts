import type { OpenedWorkbook } from "./open";
import { readRelationships } from "./sheet/relationships";
import { readSheetLooks, type SheetLooks } from "./appearance/sheet-appearance";

/** What a reviewer needs from a workbook beyond its cells. */
export interface ReviewState {
  readonly sheets: readonly SheetLooks[];
  /** "auto", "autoNoTable" or "manual" (ECMA-376 part 1, 18.2.2). */
  readonly calculationMode: string;
  /** Linked workbooks. */
  readonly externalLinks: number;
}

/** Reads styles, protection, conditional formats, calculation mode and links in a second pass: the book omits them. */
export function readReviewState(opened: OpenedWorkbook): ReviewState {
  const { archive } = opened;
  const main = readRelationships(archive, "").find(({ kind }) => kind === "officeDocument")?.target;
  let calculationMode = "auto";
  if (main !== undefined) {
    archive.read(main, {
      open(name, attributes) {
        if (name === "calcPr") calculationMode = attributes["calcMode"] ?? "auto";
      },
      close() {},
    });
  }
  const links = main === undefined ? [] : readRelationships(archive, main);
  return {
    sheets: readSheetLooks(opened),
    calculationMode,
    externalLinks: links.filter(({ kind }) => kind === "externalLink").length,
  };
}
