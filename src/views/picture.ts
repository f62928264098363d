/** A drawing as a PNG of twice its size, made by the browser. */
export async function renderPicture(svg: string): Promise<Uint8Array> {
  const address = URL.createObjectURL(new Blob([svg], { type: "image/svg+xml" }));
  const image = new Image();
  image.src = address;
  await image.decode();
  const canvas = document.createElement("canvas");
  canvas.width = 2 * image.naturalWidth;
  canvas.height = 2 * image.naturalHeight;
  const pencil = canvas.getContext("2d");
  if (!pencil) throw new Error("this browser cannot draw pictures");
  pencil.drawImage(image, 0, 0, canvas.width, canvas.height);
  URL.revokeObjectURL(address);
  const blob = await new Promise<Blob | null>((resolve) => canvas.toBlob(resolve, "image/png"));
  if (!blob) throw new Error("this browser cannot draw pictures");
  return new Uint8Array(await blob.arrayBuffer());
}
