import { afterEach, beforeEach, vi } from "vitest";

/** In each test of a file Office is one that has every requirement set and a workbook open for writing, and Excel is what is made for it. */
export function stubOffice(createExcel: () => object): void {
  beforeEach(() => {
    vi.stubGlobal("Excel", createExcel());
    vi.stubGlobal("Office", {
      context: { requirements: { isSetSupported: () => true }, document: { mode: "readWrite", url: "" } },
      DocumentMode: { ReadOnly: "readOnly" },
    });
  });
  afterEach(() => {
    vi.unstubAllGlobals();
  });
}
