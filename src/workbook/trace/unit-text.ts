/** Units by themselves; a unit of a quotient or product is made of them. */
const plain = new Set(
  (
    "Pa kPa hPa mbar inHg inH2O mm cm m km in ft yd s min h d a K °C °F °R kg g lb l L ml cfm cfm50 fpm mph W kW Wh kWh kBtu Btu J kJ MJ " +
    "% ‰ ppm m² m³ cm² mm² ft² ft³ in² in.² fraction persons person h·K m·K"
  ).split(" "),
);

/** True for a text that is nothing but a unit: Pa, m³/(h·m²), 1/h, lb/ft³, °C. */
export function isUnit(text: string): boolean {
  const bare = text.trim();
  if (bare.length === 0 || bare.length > 24 || /^\d+$/.test(bare)) return false;
  if (plain.has(bare)) return true;
  const factors = bare.split(/[/·*()]+/).map((factor) => factor.trim());
  const named = factors.filter((factor) => factor !== "" && factor !== "1");
  return named.length > 0 && /[/·]/.test(bare) && named.every(isFactor);
}

function isFactor(text: string): boolean {
  const bare = text.replace(/(\^[-−]?[\dn.]+|[²³⁻¹ⁿ]+|(?<=[a-z])[23n]|(?<=\S) at \d+ Pa)$/u, "");
  return plain.has(text) || plain.has(bare) || bare === "100 ft²";
}

/** A heading or label parted into its words and the unit at its end: "Wind speed, m/s", "Temperature (°C)". */
export function splitUnit(text: string): { readonly words: string; readonly unit: string } {
  const bracketed = /^(.*\S)\s*[([]([^()[\]]+|[^([]*\([^()]*\)[^()]*)[)\]]$/u.exec(text);
  if (bracketed && isUnit(bracketed[2] ?? "")) return { words: bracketed[1] ?? "", unit: bracketed[2] ?? "" };
  const comma = text.lastIndexOf(", ");
  const tail = comma < 0 ? "" : text.slice(comma + 2);
  return isUnit(tail) ? { words: text.slice(0, comma), unit: tail } : { words: text, unit: "" };
}

/** The unit that stands amid a label, before a colon: "Inside, m²: by the add-in". */
export function unitWithin(text: string): string {
  const amid = /, ([^,:]+):/u.exec(text)?.[1] ?? "";
  return isUnit(amid) ? amid : "";
}
