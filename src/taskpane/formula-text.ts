import type { ExampleArgument } from "../functions/examples";

/** Writes a call as a person types it in an English Excel: ranges as {row;row}, an omitted argument as nothing. */
export function formulaText(id: string, values: readonly ExampleArgument[]): string {
  return `=STILLAIR.${id}(${values.map(argumentText).join(",")})`;
}

function argumentText(value: ExampleArgument): string {
  if (value === null) return "";
  if (typeof value === "object") return `{${value.map((row) => row.map(argumentText).join(",")).join(";")}}`;
  if (typeof value === "string") return `"${value.replaceAll('"', '""')}"`;
  return typeof value === "boolean" ? String(value).toUpperCase() : String(value);
}
