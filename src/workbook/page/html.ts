import { escaped } from "../graph/svg";

export { escaped };

type Value = string | number | boolean | undefined;

/** An HTML element with its content, which is HTML already; attributes that are undefined or false are left out. */
export function tag(name: string, attributes: Readonly<Record<string, Value>>, content = ""): string {
  const given = Object.entries(attributes).flatMap(([key, value]) => {
    if (value === undefined || value === false) return [];
    return value === true ? [` ${key}`] : [` ${key}="${escaped(String(value))}"`];
  });
  return `<${name}${given.join("")}>${isVoid.has(name) ? "" : `${content}</${name}>`}`;
}

const isVoid = new Set(["meta", "col", "br", "link"]);

/** Words that only a screen reader says. */
export function spoken(text: string): string {
  return tag("span", { class: "spoken" }, escaped(text));
}
