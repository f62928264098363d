import { OfficeMockObject } from "office-addin-mock";
import { describe, expect, it } from "vitest";
import { type OfficeLike, reportHost } from "../../src/taskpane/host";

/** Office as a program that shows the pane would present itself. Methods only: the mock gives plain values after load() alone. */
function office(host: string | null, newestRuntime: string | null): OfficeLike {
  const mock = new OfficeMockObject({
    context: {
      requirements: {
        isSetSupported: (name: string, version: string) =>
          newestRuntime !== null && name === "CustomFunctionsRuntime" && version <= newestRuntime,
      },
    },
    onReady: () => Promise.resolve({ host }),
  });
  return mock as unknown as OfficeLike;
}

describe("what the pane says about the program around it", () => {
  it.each(["1.2", "1.4"])("is ready in an Excel that has the set %s for which it was built", async (runtime) => {
    expect(await reportHost(office("Excel", runtime), runtime)).toMatchObject({ state: "ready" });
  });

  it("names the Excels that have the set where this one has not", async () => {
    const { state, sentence } = await reportHost(office("Excel", "1.3"), "1.4");
    expect(state).toBe("unsupported");
    expect(sentence).toMatch(/CustomFunctionsRuntime 1\.4.*Microsoft 365.*on the web/);
    // Set 1.4 is in no Excel that was bought once.
    expect(sentence).not.toMatch(/20\d\d/);
    expect((await reportHost(office("Excel", null), "1.2")).sentence).toMatch(/Excel 2021 and newer/);
  });

  it("is for reading in another program of Office, in a browser, and where Office's file could not be loaded", async () => {
    expect(await reportHost(office("Word", "1.4"), "1.4")).toMatchObject({ state: "elsewhere" });
    expect(await reportHost(office(null, "1.4"), "1.4")).toMatchObject({ state: "elsewhere" });
    expect(await reportHost(undefined, "1.4")).toMatchObject({ state: "elsewhere" });
  });
});
