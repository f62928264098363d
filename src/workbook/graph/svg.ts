type Value = string | number | undefined;

const escapes: Readonly<Record<string, string>> = {
  "&": "&amp;",
  "<": "&lt;",
  ">": "&gt;",
  '"': "&quot;",
  "'": "&#39;",
};

/** Characters that XML 1.0 has no room for. */
const forbidden = /[^\t\n\r\u0020-\ud7ff\ue000-\ufffd\u{10000}-\u{10ffff}]/gu;

/** Text as XML and HTML take it; what XML cannot hold is left out. */
export function escaped(text: string): string {
  return text.replace(forbidden, "").replace(/[&<>"']/g, (sign) => escapes[sign] ?? sign);
}

function shown(value: string | number): string {
  return typeof value === "number" ? String(Number(value.toFixed(2))) : escaped(value);
}

/** An element with its attributes; those that are undefined are left out. Content is XML already. */
export function element(name: string, attributes: Readonly<Record<string, Value>>, content = ""): string {
  const given = Object.entries(attributes).flatMap(([key, value]) =>
    value === undefined ? [] : [` ${key}="${shown(value)}"`],
  );
  return content === "" ? `<${name}${given.join("")}/>` : `<${name}${given.join("")}>${content}</${name}>`;
}

/** A path through points. */
export function pathOf(points: readonly (readonly [x: number, y: number])[], closed = false): string {
  const steps = points.map(([x, y], index) => `${index === 0 ? "M" : "L"}${shown(x)} ${shown(y)}`);
  return steps.join("") + (closed ? "Z" : "");
}
