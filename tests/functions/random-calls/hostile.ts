import fc from "fast-check";

/** A number card as a host hands it over. */
const card = (basicValue: unknown) => ({ type: "Double", basicType: "Double", basicValue, properties: {} });

/** Cells that no tester means to send and that every host can. */
const hostileCell: fc.Arbitrary<unknown> = fc.oneof(
  fc.constantFrom<unknown>(
    NaN,
    Infinity,
    -Infinity,
    Number.MAX_VALUE,
    -Number.MAX_VALUE,
    Number.MIN_VALUE,
    -Number.MIN_VALUE,
    1e308,
    1e200,
    1e-200,
    1e-310,
    -0,
    0,
    -1,
    1e15,
    2 ** 53,
    null,
    undefined,
    "",
    " ",
    "0",
    "NaN",
    "#N/A",
    "#DIV/0!",
    "yes",
    "12,5",
    "__proto__",
    "constructor",
    true,
    false,
  ),
  fc.constantFrom<unknown>("#N/A", "#VALUE!", "#SPILL!").map((code) => ({ type: "Error", basicValue: code })),
  fc.constantFrom<unknown>("#NUM!").map((code) => ({ code, message: "an error of another add-in" })),
  fc.constantFrom<unknown>(12.5, "text", null, NaN, undefined).map(card),
  fc.constant({}),
  fc.double(),
  fc.integer(),
  fc.string({ maxLength: 12 }),
  // A sentence or a page that someone typed or pasted into a cell.
  fc.integer({ min: 60, max: 2000 }).map((length) => "pasted text, ".repeat(Math.ceil(length / 13)).slice(0, length)),
);

/** Whole arguments out of shape: ragged, empty, a bare cell where a range is meant, a range where one cell is meant. */
const hostileArgument: fc.Arbitrary<unknown> = fc.oneof(
  hostileCell,
  fc.constantFrom<unknown>([], [[]], [[], []], null, undefined),
  fc.array(fc.array(hostileCell, { maxLength: 4 }), { maxLength: 8 }),
);

/** What is done to the arguments of a sound call. */
export type Damage =
  | { readonly argument: number; readonly whole: unknown }
  | { readonly argument: number; readonly row: number; readonly column: number; readonly cell: unknown };

const place = fc.nat({ max: 1000 });

export const damages: fc.Arbitrary<readonly Damage[]> = fc.oneof(
  { weight: 3, arbitrary: fc.constant([]) },
  fc.array(
    fc.oneof(
      { weight: 3, arbitrary: fc.record({ argument: place, row: place, column: place, cell: hostileCell }) },
      { weight: 1, arbitrary: fc.record({ argument: place, whole: hostileArgument }) },
    ),
    { maxLength: 4 },
  ),
  fc.array(fc.record({ argument: place, whole: hostileArgument }), { minLength: 4, maxLength: 12 }),
);

/** The arguments after the damage; a place beyond the end counts round. */
export function damaged(args: readonly unknown[], done: readonly Damage[]): unknown[] {
  const result = structuredClone([...args]);
  for (const damage of done) {
    if (result.length === 0) break;
    const index = damage.argument % result.length;
    const argument = result[index];
    if ("whole" in damage) result[index] = damage.whole;
    else if (!Array.isArray(argument) || argument.length === 0) result[index] = damage.cell;
    else {
      const row: unknown = argument[damage.row % argument.length];
      if (Array.isArray(row) && row.length > 0) row[damage.column % row.length] = damage.cell;
    }
  }
  return result;
}
