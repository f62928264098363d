const rounds = 10;
const [multiplierA, multiplierB] = [0xd2511f53, 0xcd9e8d57];
const [stepA, stepB] = [0x9e3779b9, 0xbb67ae85];

/** Upper half of the product of two 32-bit numbers. */
function upperHalf(a: number, b: number): number {
  const [lowA, highA, lowB, highB] = [a & 0xffff, a >>> 16, b & 0xffff, b >>> 16];
  const middle = highA * lowB + ((lowA * lowB) >>> 16);
  const carry = lowA * highB + (middle & 0xffff);
  return highA * highB + (middle >>> 16) + (carry >>> 16);
}

export type Counter = readonly [number, number, number, number];

/**
 * Four random 32-bit numbers for a counter and a key: Philox4x32-10. The numbers depend on nothing else, so that every simulated test has its own whichever
 * thread draws them.
 * Source: Salmon, Moraes, Dror and Shaw, Parallel random numbers: as easy as 1, 2, 3 (SC11, 2011).
 */
export function philox(counter: Counter, key: readonly [number, number]): [number, number, number, number] {
  let [a, b, c, d] = counter;
  let [keyA, keyB] = key;
  for (let round = 0; round < rounds; round++) {
    const [upperA, lowerA] = [upperHalf(multiplierA, a), Math.imul(multiplierA, a)];
    const [upperB, lowerB] = [upperHalf(multiplierB, c), Math.imul(multiplierB, c)];
    [a, b, c, d] = [upperB ^ b ^ keyA, lowerB, upperA ^ d ^ keyB, lowerA];
    keyA = (keyA + stepA) | 0;
    keyB = (keyB + stepB) | 0;
  }
  return [a >>> 0, b >>> 0, c >>> 0, d >>> 0];
}
