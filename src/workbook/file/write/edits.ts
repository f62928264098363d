/** A stretch of a text and what shall stand there instead; an insertion when start and end are the same. */
export interface Edit {
  readonly start: number;
  readonly end: number;
  readonly text: string;
}

/** Applies edits that do not overlap; those at the same place keep their order. Everything between them stays as it is. */
export function applyEdits(text: string, edits: readonly Edit[]): string {
  const inOrder = [...edits].sort((a, b) => a.start - b.start);
  const pieces: string[] = [];
  let at = 0;
  for (const edit of inOrder) {
    if (edit.start < at) throw new Error("two edits overlap");
    pieces.push(text.slice(at, edit.start), edit.text);
    at = edit.end;
  }
  pieces.push(text.slice(at));
  return pieces.join("");
}
