import { columnsOf, Reference, rowsOf } from "../formula/values/value";
import { inner, type Call } from "./look-up-hits";
import { referenceOf, type Spot, type Walker, type Words } from "./walk";

/**
 * SUMIF and AVERAGEIF: what is summed, and the condition. The range to sum counts from its first cell, in the size of the range that is asked,
 * whatever its own size.
 */
export function conditionalWords(walker: Walker, { name, arguments: given }: Call, spot: Spot): Words | undefined {
  const [range = null, criterion = null, target = null] = given;
  const asked = range ? referenceOf(walker, range, inner(spot))?.area : undefined;
  const first = target ? referenceOf(walker, target, inner(spot))?.area : asked;
  if (!asked || !first) return undefined;
  const summed = new Reference([
    { ...first, bottom: first.top + rowsOf(asked) - 1, right: first.left + columnsOf(asked) - 1 },
  ]);
  walker.read(summed, spot.role);
  // Read for its own sake too: a range that is itself looked up or moved rests on more than its cells.
  for (const part of [range, target]) if (part && part.type !== "area") walker.walk(part, inner(spot));
  const askedWords = walker.walk(range, { ...inner(spot), role: target ? "condition" : spot.role }).text;
  const value = walker.walk(criterion, { ...spot, role: "condition", single: true });
  const what = name === "SUMIF" ? "sum" : "mean";
  const wanted = value.rank < 9 ? `(${value.text})` : value.text;
  return { text: `the ${what} of ${walker.named(summed)} where ${askedWords} matches ${wanted}`, rank: 2.5 };
}
