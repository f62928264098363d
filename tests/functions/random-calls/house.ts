import fc from "fast-check";

/** Evenly spread: the library's own doubles are mostly next to 0, which a tester never types. */
const between = (lowest: number, highest: number) =>
  fc.nat({ max: 1_000_000 }).map((step) => lowest + ((highest - lowest) * step) / 1_000_000);

/** Numbers behind a whole call: one house, its test and the day, from which every argument is made. */
export const house = fc.record({
  direction: fc.constantFrom("depressurization", "pressurization"),
  coefficient: between(0.5, 2000),
  exponent: between(0.45, 1.05),
  pressures: fc.uniqueArray(fc.integer({ min: 4, max: 110 }), { minLength: 1, maxLength: 12 }),
  scatter: fc.array(between(0.97, 1.03), { minLength: 12, maxLength: 12 }),
  baselines: fc.array(between(-4, 4), { minLength: 0, maxLength: 12 }),
  columns: fc.integer({ min: 1, max: 3 }),
  rows: fc.integer({ min: 0, max: 6 }),
  given: fc.array(fc.boolean(), { minLength: 12, maxLength: 12 }),
  settings: fc.array(fc.tuple(fc.nat(), between(0, 1), fc.boolean()), { maxLength: 30 }),
  size: between(0.1, 3000),
  fraction: between(0, 1),
  temperature: between(-25, 40),
  word: fc.nat(),
});

export type House = typeof house extends fc.Arbitrary<infer Value> ? Value : never;
