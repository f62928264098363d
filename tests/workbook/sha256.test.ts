import { createHash } from "node:crypto";
import { expect, it } from "vitest";
import { sha256 } from "../../src/workbook/sha256";

it("is SHA-256: the examples of FIPS 180-4, and what Node computes for every length around the blocks' ends", () => {
  expect(sha256("abc")).toBe("ba7816bf8f01cfea414140de5dae2223b00361a396177a9cb410ff61f20015ad");
  expect(sha256("abcdbcdecdefdefgefghfghighijhijkijkljklmklmnlmnomnopnopq")).toBe(
    "248d6a61d20638b8e5c026930c3e6039a33ce45964ff2167f6ecedd419db06c1",
  );
  for (const letter of ["a", "ρ", "😀"])
    for (let length = 0; length < 150; length += 1) {
      const text = letter.repeat(length);
      expect(sha256(text), `${letter} × ${length}`).toBe(createHash("sha256").update(text).digest("hex"));
    }
});
