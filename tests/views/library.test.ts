import { expect, it } from "vitest";
import { createEntry, type Entry, listDropped, nameEntries, sortByConcern } from "../../src/reader/library";

function entryOf(name: string, word: string | undefined, differing = 0): Entry {
  const entry = createEntry(new File([], name));
  if (word === undefined) return { ...entry, state: "unreadable" };
  const differences = Array.from({ length: differing }, () => ({ address: "Cover!B14", stored: "1", computed: "2" }));
  const answer = { verdicts: [{ word }], differences, notEvaluated: [] } as unknown as NonNullable<Entry["answer"]>;
  return { ...entry, state: "read", answer };
}

it("lists the workbooks of most concern first: an error in place of a verdict is no better than an open one", () => {
  const entries = [
    entryOf("pass", "pass"),
    entryOf("differs", "pass", 3),
    entryOf("open", "open"),
    entryOf("error", "#VALUE!"),
    entryOf("not valid", "not valid"),
    entryOf("unreadable", undefined),
    entryOf("fail", "fail"),
  ];
  const order = ["unreadable", "fail", "not valid", "error", "open", "differs", "pass"];
  expect(sortByConcern(entries).map(({ file }) => file.name)).toEqual(order);
});

it("names workbooks of the same name by their folders, as they were dropped", async () => {
  const drop = (fullPath: string): FileSystemEntry => {
    const file = (resolve: (file: File) => void) => resolve(new File([], fullPath.split("/").at(-1)!));
    return { isFile: true, fullPath, file } as unknown as FileSystemEntry;
  };
  const items = ["/ash/test.xlsx", "/elm/test.xlsx", "/elm/other.xlsx"].map((path) => ({
    webkitGetAsEntry: () => drop(path),
  }));
  const files = await listDropped({ items } as unknown as DataTransfer);
  expect([...nameEntries(files.map(createEntry)).values()]).toEqual(["ash/test.xlsx", "elm/test.xlsx", "other.xlsx"]);
});
