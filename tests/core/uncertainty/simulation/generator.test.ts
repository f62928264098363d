import { expect, test } from "vitest";
import { randomStream } from "../../../../src/core";
import vectors from "../../../authorities/uncertainty-vectors/vectors.json";

test.each(vectors.generator)(
  "xoshiro128** from seed $seed: the integers of the vectors, uniforms from the middle of each",
  (given) => {
    const [integers, uniforms] = [randomStream(given.seed), randomStream(given.seed)];
    for (const expected of given.first_integers) {
      expect(integers.integer()).toBe(expected);
      expect(uniforms.uniform()).toBe((expected + 0.5) / 2 ** 32);
    }
  },
);

test("xoshiro128** starts from the published constants: another seed gives another stream, normals come in pairs", () => {
  const [one, two] = [randomStream(1), randomStream(1)];
  const radius = Math.sqrt(-2 * Math.log(two.uniform()));
  const angle = 2 * Math.PI * two.uniform();
  expect(one.normal()).toBe(radius * Math.cos(angle));
  expect(one.normal()).toBe(radius * Math.sin(angle));
  expect(one.uniform()).toBe(two.uniform());
});
