import { placeholderBase } from "../metadata/generate";
import type { Address } from "./address";
import type { ExcelBuild } from "./excel";

/**
 * The manifest for one address, version and Excel: the AppDomain is the origin only, every other address keeps its path, and the requirements
 * are those of that Excel. The element for keyboard shortcuts is added here: it is younger than the published schemas, to which the file in the
 * repository keeps. Microsoft wants it immediately below VersionOverrides.
 */
export function fillManifest(text: string, address: Address, version: string, excel: ExcelBuild): string {
  const parts = /^(\d+)\.(\d+)\.(\d+)$/.exec(version);
  if (!parts) throw new Error(`package.json: version "${version}" is not three numbers, as the manifest needs`);
  // Microsoft's validation rejects anything lower ("Manifest Version Too Low"), as does the admin centre.
  if (Number(parts[1]) < 1)
    throw new Error(`package.json: version "${version}" is below 1.0.0, which Office refuses in a manifest`);
  return text
    .replace(/<Version>[^<]*<\/Version>/, `<Version>${version}.0</Version>`)
    .replace(/<AppDomain>[^<]*<\/AppDomain>/, `<AppDomain>${address.origin}</AppDomain>`)
    .replace(/(<Set Name="CustomFunctionsRuntime" MinVersion=")[^"]*/, `$1${excel.functionsRuntime}`)
    .replace(
      "</VersionOverrides>",
      `$&\n  <ExtendedOverrides Url="${placeholderBase}/shortcuts.json"></ExtendedOverrides>`,
    )
    .replaceAll(`"${placeholderBase}/`, `"${address.base}/`);
}
