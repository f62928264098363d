/** What the pane can say about the program that it runs in. */
export interface HostReport {
  readonly state: "ready" | "elsewhere" | "unsupported";
  readonly sentence: string;
}

/** The part of Office's interface that the question needs. */
export interface OfficeLike {
  onReady(): Promise<{ host: unknown }>;
  readonly context?: { readonly requirements: { isSetSupported(name: string, version: string): boolean } };
}

const elsewhere: HostReport = {
  state: "elsewhere",
  sentence:
    "Opened outside Excel: everything can be read and copied here; the functions work once the add-in is installed.",
};

/** Asks Office, where there is one, which program shows the pane and whether it runs custom functions. */
export async function reportHost(office: OfficeLike | undefined): Promise<HostReport> {
  if (!office) return elsewhere;
  const { host } = await office.onReady();
  if (host !== "Excel") return elsewhere;
  if (!office.context?.requirements.isSetSupported("CustomFunctionsRuntime", "1.1"))
    return {
      state: "unsupported",
      sentence:
        "This version of Excel does not run add-in functions. Microsoft 365, Excel 2021 or Excel on the web does.",
    };
  return { state: "ready", sentence: "Ready in Excel: the functions can be typed in any cell." };
}
