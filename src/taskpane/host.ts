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

/** The Excels that have a set of CustomFunctionsRuntime, by the sets that the builds of the add-in ask for. */
const excelsWith: Readonly<Record<string, string>> = {
  "1.4":
    "Excel for Microsoft 365 and Excel on the web have it; for an Excel that was bought once the add-in has another build",
  "1.2": "Excel 2021 and newer, Excel for Microsoft 365 and Excel on the web have it",
};

/**
 * Asks Office, where there is one, which program shows the pane and whether it runs the functions.
 * @param runtime The set CustomFunctionsRuntime that this build's manifest asks for.
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
