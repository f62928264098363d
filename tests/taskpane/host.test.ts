import { OfficeMockObject } from "office-addin-mock";
import { describe, expect, it } from "vitest";
import { type OfficeLike, reportHost } from "../../src/taskpane/host";

/** Office as a program that shows the pane would present itself. Methods only: the mock gives plain values after load() alone. */
function office(host: string | null, supportsFunctions: boolean): OfficeLike {
  const mock = new OfficeMockObject({
    context: {
      requirements: {
        isSetSupported: (name: string, version: string) =>
          supportsFunctions && name === "CustomFunctionsRuntime" && version === "1.1",
      },
    },
    onReady: () => Promise.resolve({ host }),
  });
  return mock as unknown as OfficeLike;
}

describe("what the pane says about the program around it", () => {
  it("is ready in an Excel that runs functions", async () => {
    expect(await reportHost(office("Excel", true))).toMatchObject({ state: "ready" });
  });
  it("says so where Excel does not run them", async () => {
    expect(await reportHost(office("Excel", false))).toMatchObject({ state: "unsupported" });
  });
  it("is for reading in another program of Office, in a browser, and where Office's file could not be loaded", async () => {
    expect(await reportHost(office("Word", true))).toMatchObject({ state: "elsewhere" });
    expect(await reportHost(office(null, true))).toMatchObject({ state: "elsewhere" });
    expect(await reportHost(undefined)).toMatchObject({ state: "elsewhere" });
  });
});
