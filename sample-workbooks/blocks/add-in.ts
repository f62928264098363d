/** The form in which Excel stores a call of this add-in: the dot between namespace and name becomes an underscore. */
const prefix = "_xldudf_STILLAIR_";

/** A call of one of the add-in's functions; a missing argument is left empty between its commas. */
export function call(name: string, ...given: readonly (string | undefined)[]): string {
  return `${prefix}${name}(${given
    .map((argument) => argument ?? "")
    .join(",")
    .replace(/,+$/, "")})`;
}

/**
 * A range whose blank cells must stay blank. Some versions of Excel hand a blank cell to an add-in as 0, and where 0 is a reading
 * (baselines, temperatures) that would be a wrong number; "" is blank in every version.
 */
export function keepBlanks(range: string): string {
  return `IF(${range}="","",${range})`;
}

/** A text argument. */
export function quoted(text: string): string {
  return `"${text.replaceAll('"', '""')}"`;
}
