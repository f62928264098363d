import { placeholderBase } from "../metadata/generate";
import type { Address } from "./address";
import type { ExcelBuild } from "./excel";

/**
 * The manifest for one address, version and Excel: the AppDomain is the origin alone, every other address keeps its path, and what the functions need
 * is what that Excel has.
 */
export function fillManifest(text: string, address: Address, version: string, excel: ExcelBuild): string {
  const parts = /^(\d+)\.(\d+)\.(\d+)$/.exec(version);
  if (!parts) throw new Error(`package.json: version "${version}" is not three numbers, as the manifest needs`);
  // Microsoft's validation refuses less ("Manifest Version Too Low"), and with it the admin centre.
  if (Number(parts[1]) < 1)
    throw new Error(`package.json: version "${version}" is below 1.0.0, which Office refuses in a manifest`);
  return text
    .replace(/<Version>[^<]*<\/Version>/, `<Version>${version}.0</Version>`)
    .replace(/<AppDomain>[^<]*<\/AppDomain>/, `<AppDomain>${address.origin}</AppDomain>`)
    .replace(/(<Set Name="CustomFunctionsRuntime" MinVersion=")[^"]*/, `$1${excel.functionsRuntime}`)
    .replaceAll(`"${placeholderBase}/`, `"${address.base}/`);
}
