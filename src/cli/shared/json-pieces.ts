const piece = 65_536;

/**
 * What JSON.stringify(value, null, 2) gives, in pieces of whole lines without the last line feed: twenty thousand long texts together are
 * longer than a string can be.
 */
export function* jsonPieces(value: unknown): Generator<string> {
  let lines: string[] = [];
  let length = 0;
  for (const line of linesOf(value, "", "", "")) {
    lines.push(line);
    length += line.length;
    if (length < piece) continue;
    yield lines.join("\n");
    [lines, length] = [[], 0];
  }
  if (lines.length > 0) yield lines.join("\n");
}

function* linesOf(value: unknown, indent: string, before: string, after: string): Generator<string> {
  const isList = Array.isArray(value);
  const entries: [key: string, value: unknown][] =
    typeof value !== "object" || value === null
      ? []
      : isList
        ? value.map((item: unknown) => ["", item])
        : Object.entries(value).flatMap(([key, item]) =>
            item === undefined ? [] : [[`${JSON.stringify(key)}: `, item]],
          );
  if (entries.length === 0) {
    yield `${indent}${before}${JSON.stringify(value)}${after}`;
    return;
  }
  yield `${indent}${before}${isList ? "[" : "{"}`;
  for (const [index, [key, item]] of entries.entries())
    yield* linesOf(item, `${indent}  `, key, index < entries.length - 1 ? "," : "");
  yield `${indent}${isList ? "]" : "}"}${after}`;
}
