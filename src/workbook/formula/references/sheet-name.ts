import type { CallNode, Node } from "../parse/syntax";

const isSame = (one: Node | null | undefined, other: Node): boolean => JSON.stringify(one) === JSON.stringify(other);

const isNumber = (node: Node | null | undefined, least: number): boolean =>
  node?.type === "constant" && typeof node.value === "number" && node.value >= least;

/** FIND("]", path) or SEARCH of the same. */
function isPlaceOfBracket(node: Node | null | undefined, path: Node): boolean {
  if (node?.type !== "call" || (node.name !== "FIND" && node.name !== "SEARCH")) return false;
  const [wanted, text, ...more] = node.arguments;
  return more.length === 0 && wanted?.type === "constant" && wanted.value === "]" && isSame(text, path);
}

function isBehindBracket(node: Node | null | undefined, path: Node): boolean {
  if (node?.type !== "operation" || node.operator !== "+") return false;
  const { left, right } = node;
  return (isPlaceOfBracket(left, path) && isNumber(right, 1)) || (isPlaceOfBracket(right, path) && isNumber(left, 1));
}

/** RIGHT's count: LEN(path)-FIND("]",path). */
function isLengthBehind(node: Node | null | undefined, path: Node): boolean {
  if (node?.type !== "operation" || node.operator !== "-" || node.left.type !== "call") return false;
  return node.left.name === "LEN" && isSame(node.left.arguments[0], path) && isPlaceOfBracket(node.right, path);
}

/** A sheet's name has at most so many letters. */
const longestName = 31;

/**
 * What CELL("filename", cell) is asked of in a formula that takes only the sheet's name from the path: MID behind the "]", RIGHT,
 * REPLACE up to it, or TEXTAFTER. The path itself depends on where the file lies. Undefined where the call is not of this kind.
 */
export function findSheetAsked({ name, arguments: given }: CallNode): Node | null | undefined {
  const [path, first, second, third] = given;
  if (path?.type !== "call" || path.name !== "CELL") return undefined;
  const [kind, reference = null] = path.arguments;
  if (kind?.type !== "constant" || typeof kind.value !== "string" || kind.value.toLowerCase() !== "filename")
    return undefined;
  const isName =
    (name === "MID" && isBehindBracket(first, path) && isNumber(second, longestName)) ||
    (name === "RIGHT" && isLengthBehind(first, path)) ||
    (name === "TEXTAFTER" && first?.type === "constant" && first.value === "]" && given.length === 2) ||
    (name === "REPLACE" &&
      isNumber(first, 1) &&
      isPlaceOfBracket(second, path) &&
      third?.type === "constant" &&
      third.value === "");
  return isName ? reference : undefined;
}
