import { readFileSync } from "node:fs";
import { createRequire } from "node:module";
import { initWasm, Resvg } from "@resvg/resvg-wasm";

const { resolve } = createRequire(import.meta.url);

/** The font is embedded, so that the picture is the same on a machine without fonts. Arimo has the widths of Arial. */
const fonts = [
  "@expo-google-fonts/arimo/400Regular/Arimo_400Regular.ttf",
  "@expo-google-fonts/arimo/700Bold/Arimo_700Bold.ttf",
];

/** Twice the drawing's size: sharp in print and on high-resolution screens. */
const twice = { mode: "zoom", value: 2 } as const;

/** Letters of scripts that the font lacks; symbols common to all scripts are in it, except emoji. */
const strange =
  /[^\p{sc=Latin}\p{sc=Greek}\p{sc=Cyrillic}\p{sc=Hebrew}\p{sc=Common}\p{sc=Inherited}]|\p{Emoji_Presentation}/gu;

/** The letters of a text missing from the picture's font, each once; they appear as boxes. */
export function findMissingLetters(text: string): string {
  return [...new Set(text.match(strange) ?? [])].join("");
}

let ready: Promise<void> | undefined;

/** A drawing as a PNG picture, twice its own size or of a given width in pixels. */
export async function renderPicture(
  svg: string,
  size: typeof twice | { readonly mode: "width"; readonly value: number } = twice,
): Promise<Uint8Array> {
  await (ready ??= initWasm(readFileSync(resolve("@resvg/resvg-wasm/index_bg.wasm"))));
  const drawing = new Resvg(svg, {
    font: {
      fontBuffers: fonts.map((font) => readFileSync(resolve(font))),
      defaultFontFamily: "Arimo",
      sansSerifFamily: "Arimo",
    },
    fitTo: size,
  });
  try {
    const picture = drawing.render();
    const bytes = picture.asPng().slice();
    picture.free();
    return bytes;
  } finally {
    drawing.free();
  }
}
