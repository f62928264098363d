import { describe, expect, test } from "vitest";
import { groups } from "./uncertainty-vectors/program/groups";
import vectors from "./uncertainty-vectors/vectors.json";
import { slow } from "../time-outs";

describe("the program in fifty digits gives the numbers that are stored", { timeout: slow }, () => {
  test.each(Object.entries(groups))(
    "%s",
    (name, compute) => {
      const stored = vectors[name as keyof typeof vectors];
      expect((stored as readonly unknown[]).length).toBeGreaterThan(0);
      expect(compute()).toEqual(stored);
      // Integrals in fifty digits.
    },
    slow,
  );
});
