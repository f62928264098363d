import { unzlibSync } from "fflate";

export interface Pixels {
  readonly width: number;
  readonly height: number;
  /** RRGGBB of a pixel. */
  at(x: number, y: number): string;
}

/** Decodes a PNG of eight bits a channel, RGB or RGBA, not interlaced (PNG specification, third edition, clauses 5, 9 and 10). */
export function readPng(bytes: Uint8Array): Pixels {
  const view = new DataView(bytes.buffer, bytes.byteOffset, bytes.byteLength);
  if (view.getUint32(0) !== 0x89504e47) throw new Error("no PNG");
  let [width, height, channels] = [0, 0, 0];
  const data: number[] = [];
  for (let place = 8; place < bytes.length;) {
    const length = view.getUint32(place);
    const kind = String.fromCharCode(...bytes.subarray(place + 4, place + 8));
    const body = place + 8;
    if (kind === "IHDR") {
      [width, height] = [view.getUint32(body), view.getUint32(body + 4)];
      const [depth, colour, , , interlaced] = bytes.subarray(body + 8, body + 13);
      if (depth !== 8 || interlaced !== 0 || (colour !== 2 && colour !== 6)) throw new Error("another kind of PNG");
      channels = colour === 6 ? 4 : 3;
    } else if (kind === "IDAT") for (const byte of bytes.subarray(body, body + length)) data.push(byte);
    place = body + length + 4;
  }
  const packed = unzlibSync(Uint8Array.from(data));
  const stride = width * channels;
  const pixels = new Uint8Array(stride * height);
  for (let row = 0; row < height; row++) {
    const filter = packed[row * (stride + 1)] ?? 0;
    for (let index = 0; index < stride; index++) {
      const left = index < channels ? 0 : (pixels[row * stride + index - channels] ?? 0);
      const up = row === 0 ? 0 : (pixels[(row - 1) * stride + index] ?? 0);
      const corner = row === 0 || index < channels ? 0 : (pixels[(row - 1) * stride + index - channels] ?? 0);
      const predicted = [0, left, up, (left + up) >> 1, paeth(left, up, corner)][filter] ?? 0;
      pixels[row * stride + index] = (packed[row * (stride + 1) + 1 + index] ?? 0) + predicted;
    }
  }
  const at = (x: number, y: number): string => {
    const place = y * stride + x * channels;
    return [...pixels.subarray(place, place + 3)]
      .map((byte) => byte.toString(16).padStart(2, "0"))
      .join("")
      .toUpperCase();
  };
  return { width, height, at };
}

function paeth(left: number, up: number, corner: number): number {
  const guess = left + up - corner;
  const [a, b, c] = [Math.abs(guess - left), Math.abs(guess - up), Math.abs(guess - corner)];
  return a <= b && a <= c ? left : b <= c ? up : corner;
}
