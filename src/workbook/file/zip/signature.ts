import { WorkbookProblem } from "../problem";

const oleSignature = [0xd0, 0xcf, 0x11, 0xe0, 0xa1, 0xb1, 0x1a, 0xe1];
const zipSignature = [0x50, 0x4b];

/** Refuses what is plainly not an .xlsx, naming what it looks like, so that a person knows what to do about it. */
export function refuseForeignFormats(bytes: Uint8Array): void {
  if (bytes.length === 0) throw new WorkbookProblem("not a zip", "the file is empty");
  if (startsWith(bytes, oleSignature)) {
    // Both hide in the same container (MS-CFB); stream names are UTF-16LE in its directory (MS-OFFCRYPTO, MS-XLS).
    if (holdsName(bytes, "EncryptedPackage")) {
      throw new WorkbookProblem(
        "legacy or encrypted",
        "the workbook is encrypted with a password; save it without one",
      );
    }
    if (holdsName(bytes, "Workbook") || holdsName(bytes, "Book")) {
      throw new WorkbookProblem("legacy or encrypted", "this is an Excel 97-2003 workbook (.xls); save it as .xlsx");
    }
    throw new WorkbookProblem("legacy or encrypted", "this is an old compound document, not an .xlsx workbook");
  }
  if (!startsWith(bytes, zipSignature)) {
    throw new WorkbookProblem("not a zip", "this is not an .xlsx workbook: the file is not a zip archive");
  }
  if (bytes.length < 22) throw new WorkbookProblem("damaged", "the zip archive is damaged: the file is cut short");
}

function startsWith(bytes: Uint8Array, signature: readonly number[]): boolean {
  return signature.every((byte, index) => bytes[index] === byte);
}

function holdsName(bytes: Uint8Array, name: string): boolean {
  const wanted = [...name].flatMap((letter) => [letter.charCodeAt(0), 0]);
  for (let at = bytes.indexOf(wanted[0] ?? 0); at >= 0; at = bytes.indexOf(wanted[0] ?? 0, at + 1)) {
    if (wanted.every((byte, index) => bytes[at + index] === byte)) return true;
  }
  return false;
}
