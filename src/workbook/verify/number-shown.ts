import { format } from "numfmt";

/** A number as its format shows it. */
export function shownAs(value: number, pattern: string): string {
  return format(pattern, value, { throws: false, invalid: String(value) }).trim();
}

/** The number that a reader takes from what is shown; undefined where it is none. */
export function numberShown(text: string): number | undefined {
  const plain = text.replace(/[−–]/g, "-").replace(/[^\d.eE+-]/g, "");
  return /\d/.test(plain) && Number.isFinite(Number(plain)) ? Number(plain) : undefined;
}

const literals = /"[^"]*"|\\.|_.|\*.|\[[^\]]*\]/g;

/** Whether a format shows a number at all, rather than nothing or words of its own. */
export function showsNumber(value: number, pattern: string): boolean {
  const sections = pattern.split(";");
  const used =
    sections.length === 1
      ? sections[0]
      : value < 0
        ? sections[1]
        : value === 0 && sections.length > 2
          ? sections[2]
          : sections[0];
  // Conditions choose sections in their own way; such formats are left alone.
  if (/\[[<>=]/.test(pattern)) return true;
  return /[0#?@]|general|[dmyhs]/i.test((used ?? "").replace(literals, ""));
}
