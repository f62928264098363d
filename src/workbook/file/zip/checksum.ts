const table = new Uint32Array(256).map((_, index) => {
  let value = index;
  for (let bit = 0; bit < 8; bit++) value = value & 1 ? (value >>> 1) ^ 0xedb88320 : value >>> 1;
  return value;
});

/** CRC-32 as zip uses it (APPNOTE 4.4.7), continued from `before` over the next bytes; start with 0. fflate computes it but does not tell. */
export function checksum(bytes: Uint8Array, before = 0): number {
  let value = ~before;
  for (let index = 0; index < bytes.length; index++) {
    value = (table[(value ^ (bytes[index] as number)) & 0xff] as number) ^ (value >>> 8);
  }
  return ~value >>> 0;
}
