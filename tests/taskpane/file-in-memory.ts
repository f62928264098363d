import { readFileSync } from "node:fs";
import type { Conversation } from "../../src/views/conversation";
import { Desk } from "../../src/views/desk/desk";
import { type FunctionEntry, readFunctions, readSettings, type SettingEntry } from "../../src/taskpane/entries";
import { composeFunctionList, composeSettingList } from "../../src/taskpane/page-data";
import { FilePort } from "../../src/taskpane/port/file-port";
import { Session } from "../../src/taskpane/session";
import { sheetOf } from "../workbook/file/package";

/** What the page holds for the forms. */
export const functionEntries: readonly FunctionEntry[] = readFunctions(
  composeFunctionList(
    JSON.parse(readFileSync("src/functions/functions.json", "utf8")) as Parameters<typeof composeFunctionList>[0],
  ),
);
export const settingEntries: readonly SettingEntry[] = readSettings(composeSettingList());

/** A conversation with a desk in this thread. */
function converse(): Conversation {
  const desk = new Desk() as unknown as Record<string, (...given: unknown[]) => unknown>;
  const ask = async (name: string, given: readonly unknown[]): Promise<unknown> =>
    Promise.resolve(desk[name]!(...given));
  return { ask } as unknown as Conversation;
}

/** A session over a workbook with one sheet, which is empty but for the given rows of XML. */
export function openSession(rows = ""): Session {
  const conversation = converse();
  const port = new FilePort("book.xlsx", sheetOf(rows), conversation, () => undefined);
  const session = new Session(port, conversation, conversation);
  void port.onChange(() => session.forget());
  return session;
}
