/** A version of Excel the add-in is built for. */
export interface ExcelBuild {
  readonly name: "365" | "perpetual";
  /** Each build has its own folder, so that files of two builds never mix. */
  readonly folder: string;
  /** The file of src/functions that registers the functions. */
  readonly entry: string;
  /** The CustomFunctionsRuntime set required by its manifest and page. */
  readonly functionsRuntime: "1.2" | "1.4";
  /** How errors in cells reach the functions: alone, or with all other data types. Both flags together crash a volume-licensed Excel 2021. */
  readonly flag: "allowErrorForDataTypeAny" | "allowCustomDataForDataTypeAny";
  /** Functions it lacks. */
  readonly without: readonly string[];
}

const builds: readonly ExcelBuild[] = [
  {
    name: "365",
    folder: "dist",
    entry: "associate.ts",
    // Data types.
    functionsRuntime: "1.4",
    flag: "allowCustomDataForDataTypeAny",
    without: [],
  },
  {
    name: "perpetual",
    folder: "dist-perpetual",
    entry: "associate-perpetual.ts",
    // The first set with CustomFunctions.Error, without which no message reaches a cell; what 1.3 adds is not used.
    functionsRuntime: "1.2",
    flag: "allowErrorForDataTypeAny",
    without: ["RESULTCARD"],
  },
];

/** Reads which Excel to build for. */
export function readExcel(text: string): ExcelBuild {
  const found = builds.find(({ name }) => name === text.trim());
  if (found) return found;
  throw new Error(
    `EXCEL: "${text.slice(0, 80)}" is not an Excel this add-in is built for; write 365 (Microsoft 365 and the web) or perpetual (bought once)`,
  );
}
