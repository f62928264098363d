import { expect, it } from "vitest";
import { addInRegistry } from "../../src/cli/shared/add-in";
import { openWorkbook } from "../../src/workbook/index";
import { verifyWorkbook } from "../../src/workbook/verify/verify";
import { folder, workbooksIn } from "./workbooks";

const addIn = addInRegistry();
const day = new Date("2026-11-02T09:00:00Z");

// Many hold functions that are not on the list, which is doubtful by right; nothing in them is wrong.
it.each(workbooksIn(folder))("%s: nothing is said to be wrong", (_, bytes) => {
  const { findings } = verifyWorkbook(openWorkbook(bytes), addIn, day);
  expect(findings.filter(({ severity }) => severity === "error")).toEqual([]);
});
