import type { FileAnswer, ReviewAnswer, WorkbookAnswer } from "../views/desk/answers";

/** A workbook that was chosen; read again from its file whenever it is needed. */
export interface Entry {
  readonly id: number;
  readonly file: File;
  /** Where it lies in the folder that was chosen or dropped; its name where none was. */
  readonly path: string;
  state: "waiting" | "open" | "read" | "unreadable";
  answer: WorkbookAnswer | undefined;
  review: { readonly answer: ReviewAnswer; readonly page: FileAnswer } | undefined;
  /** What was typed under What if, by the address of the cell. */
  readonly changes: Map<string, string>;
  problem: string;
}

/** The largest file that is read at all; the workbook's own limits are checked when it is opened. */
export const mostBytes = 64 * 2 ** 20;

let made = 0;

export const createEntry = (file: File): Entry => ({
  id: (made += 1),
  file,
  path: droppedPaths.get(file) ?? (file.webkitRelativePath || file.name),
  state: "waiting",
  answer: undefined,
  review: undefined,
  changes: new Map(),
  problem: "",
});

/** The workbooks among files; a file that a spreadsheet program keeps beside an open workbook is none. */
export const selectWorkbooks = (files: readonly File[]): File[] =>
  files.filter(({ name }) => /\.xls[xm]$/i.test(name) && !name.startsWith("~$"));

/** A file that was dropped within a folder does not tell its path itself. */
const droppedPaths = new WeakMap<File, string>();

/** Names that tell workbooks apart: the path where several files have the same name. */
export function nameEntries(entries: readonly Entry[]): Map<Entry, string> {
  const counts = new Map<string, number>();
  for (const { file } of entries) counts.set(file.name, (counts.get(file.name) ?? 0) + 1);
  return new Map(entries.map((entry) => [entry, counts.get(entry.file.name) === 1 ? entry.file.name : entry.path]));
}

/** Everything in what was dropped, folders included. */
export async function listDropped(transfer: DataTransfer): Promise<File[]> {
  const entries = [...transfer.items].flatMap((item) => item.webkitGetAsEntry() ?? []);
  if (entries.length === 0) return [...transfer.files];
  return (await Promise.all(entries.map(listEntry))).flat();
}

async function listEntry(entry: FileSystemEntry): Promise<File[]> {
  if (entry.isFile) {
    const file = await new Promise<File>((resolve, reject) => (entry as FileSystemFileEntry).file(resolve, reject));
    droppedPaths.set(file, entry.fullPath.slice(1));
    return [file];
  }
  const reader = (entry as FileSystemDirectoryEntry).createReader();
  const found: File[] = [];
  // A folder answers in portions; an empty one ends it.
  for (;;) {
    const portion = await new Promise<FileSystemEntry[]>((resolve, reject) => reader.readEntries(resolve, reject));
    if (portion.length === 0) return found;
    found.push(...(await Promise.all(portion.map(listEntry))).flat());
  }
}

/** An error where the verdict should stand comes before what is merely still open. */
const worst = ["fail", "not valid", "error", "not proven", "open", "", "pass"];

/** Unreadable ones first, then by verdict, then by what differs from the file. */
export function sortByConcern(entries: readonly Entry[]): Entry[] {
  const rank = ({ state, answer }: Entry): number => {
    if (state === "unreadable") return -1;
    const words = answer?.verdicts.map(({ word }) => word) ?? [];
    const places = words
      .map((word) => worst.indexOf(word.startsWith("#") ? "error" : word))
      .filter((place) => place >= 0);
    return places.length > 0 ? Math.min(...places) : worst.length;
  };
  const doubt = ({ answer }: Entry): number => (answer?.differences.length ?? 0) + (answer?.notEvaluated.length ?? 0);
  return [...entries].sort((one, other) => rank(one) - rank(other) || doubt(other) - doubt(one));
}
