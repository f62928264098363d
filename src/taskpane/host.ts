/** What the pane reports about the program it runs in. */
export interface HostReport {
  readonly state: "ready" | "elsewhere" | "unsupported";
  readonly sentence: string;
}

/** The part of Office's interface that is needed to find out. */
export interface OfficeLike {
  onReady(): Promise<{ host: unknown }>;
  readonly context?: { readonly requirements: { isSetSupported(name: string, version: string): boolean } };
}

const elsewhere: HostReport = {
  state: "elsewhere",
  sentence:
    "Opened outside Excel: everything can be read and copied here; the functions work once the add-in is installed.",
};

/** The versions of Excel that have a set of CustomFunctionsRuntime, by the sets that the builds require. */
const excelsWith: Readonly<Record<string, string>> = {
  "1.4":
    "Excel for Microsoft 365 and Excel on the web have it; for a one-time purchase of Excel there is another build of the add-in",
  "1.2": "Excel 2021 and newer, Excel for Microsoft 365 and Excel on the web have it",
};

/** Excel answers within a second or two; a page that waits longer says so, and goes on waiting. */
export const patience = 5000; // ms

/** What the page says while Excel does not answer. */
export const late =
  "Excel has not answered yet. Everything can be read and copied here; if it goes on, close the pane and open it again.";

/**
 * Asks Office, if present, which program shows the pane and whether it can run the functions.
 * @param runtime The CustomFunctionsRuntime set that this build's manifest requires.
 */
export async function reportHost(office: OfficeLike | undefined, runtime: string): Promise<HostReport> {
  if (!office) return elsewhere;
  const { host } = await office.onReady();
  if (host !== "Excel") return elsewhere;
  if (!office.context?.requirements.isSetSupported("CustomFunctionsRuntime", runtime))
    return {
      state: "unsupported",
      sentence: `This Excel lacks what the functions need (CustomFunctionsRuntime ${runtime}): ${excelsWith[runtime] ?? "a newer Excel has it"}.`,
    };
  return { state: "ready", sentence: "Ready in Excel: the functions can be typed in any cell." };
}
