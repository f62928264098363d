/** The parts that Excel hands the file over in, at most 4 MB each. */
const sliceSize = 4 * 2 ** 20;

/** The name in the address of the file: on the desktop a path, in which % stands for itself, on the web a URL, of the file or of the page that shows it. */
export function nameDocument(): string {
  const address = Office.context.document.url ?? "";
  const isWeb = /^https?:/i.test(address);
  const shown = isWeb && URL.canParse(address) ? new URL(address).searchParams.get("file") : null;
  const name =
    shown ??
    address
      .replace(isWeb ? /[?#].*$/s : "", "")
      .split(/[/\\]/)
      .at(-1) ??
    "";
  if (name === "") return "Workbook.xlsx";
  return isWeb && shown === null ? decodeAddress(name) : name;
}

function decodeAddress(text: string): string {
  try {
    return decodeURIComponent(text);
  } catch {
    return text;
  }
}

/** The saved form of the workbook as Excel holds it now. The file is closed again whatever happens: Excel hands out two at most. */
export async function readFile(): Promise<Uint8Array> {
  const file = await promise<Office.File>((done) =>
    Office.context.document.getFileAsync(Office.FileType.Compressed, { sliceSize }, done),
  );
  try {
    const bytes = new Uint8Array(file.size);
    let at = 0;
    for (let index = 0; index < file.sliceCount; index += 1) {
      const slice = await promise<Office.Slice>((done) => file.getSliceAsync(index, done));
      bytes.set(new Uint8Array(slice.data as ArrayLike<number>), at);
      at += slice.size;
    }
    return bytes;
  } finally {
    await promise((done) => file.closeAsync(done));
  }
}

function promise<Value>(start: (done: (result: Office.AsyncResult<Value>) => void) => void): Promise<Value> {
  return new Promise((resolve, reject) =>
    start(({ status, value, error }) => {
      if (status === Office.AsyncResultStatus.Succeeded) resolve(value);
      else reject(new Error(error.message));
    }),
  );
}
