// FIPS 180-4, 4.2.2 and 5.3.3: the first 32 bits of the fractional parts of the roots of the first primes.
const primes = listFirstPrimes(64);
const takeFraction = (value: number): number => Math.floor((value - Math.floor(value)) * 2 ** 32);
const constants = Uint32Array.from(primes, (prime) => takeFraction(Math.cbrt(prime)));
const start = Uint32Array.from(primes.slice(0, 8), (prime) => takeFraction(Math.sqrt(prime)));

function listFirstPrimes(count: number): number[] {
  const found: number[] = [];
  for (let candidate = 2; found.length < count; candidate += 1)
    if (found.every((prime) => candidate % prime !== 0)) found.push(candidate);
  return found;
}

const rotateRight = (word: number, by: number): number => (word >>> by) | (word << (32 - by));

/** SHA-256 of a text in UTF-8, as 64 hexadecimal digits. Source: FIPS 180-4, 6.2. The platform's own works only asynchronously. */
export function sha256(text: string): string {
  const bytes = new TextEncoder().encode(text);
  const padded = new Uint8Array(Math.ceil((bytes.length + 9) / 64) * 64);
  padded.set(bytes);
  padded[bytes.length] = 0x80;
  const view = new DataView(padded.buffer);
  view.setUint32(padded.length - 8, Math.floor(bytes.length / 2 ** 29));
  view.setUint32(padded.length - 4, (bytes.length << 3) >>> 0);
  const state = start.slice();
  const schedule = new Uint32Array(64);
  for (let block = 0; block < padded.length; block += 64) {
    for (let t = 0; t < 16; t += 1) schedule[t] = view.getUint32(block + 4 * t);
    for (let t = 16; t < 64; t += 1) schedule[t] = expandSchedule(schedule, t);
    compress(state, schedule);
  }
  return [...state].map((word) => word.toString(16).padStart(8, "0")).join("");
}

function expandSchedule(schedule: Uint32Array, t: number): number {
  const [late, early] = [schedule[t - 2]!, schedule[t - 15]!];
  const large = rotateRight(late, 17) ^ rotateRight(late, 19) ^ (late >>> 10);
  const small = rotateRight(early, 7) ^ rotateRight(early, 18) ^ (early >>> 3);
  return large + schedule[t - 7]! + small + schedule[t - 16]!;
}

function compress(state: Uint32Array, schedule: Uint32Array): void {
  let [a, b, c, d, e, f, g, h] = state as unknown as [number, number, number, number, number, number, number, number];
  for (let t = 0; t < 64; t += 1) {
    const choice = (e & f) ^ (~e & g);
    const majority = (a & b) ^ (a & c) ^ (b & c);
    const first =
      h + (rotateRight(e, 6) ^ rotateRight(e, 11) ^ rotateRight(e, 25)) + choice + constants[t]! + schedule[t]!;
    const second = (rotateRight(a, 2) ^ rotateRight(a, 13) ^ rotateRight(a, 22)) + majority;
    [h, g, f, e, d, c, b, a] = [g, f, e, (d + first) | 0, c, b, a, (first + second) | 0];
  }
  [a, b, c, d, e, f, g, h].forEach((word, place) => (state[place]! += word));
}
