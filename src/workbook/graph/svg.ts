import { escapeHtml } from "../html";

type Value = string | number | undefined;

function formatAttribute(value: string | number): string {
  return typeof value === "number" ? String(Number(value.toFixed(2))) : escapeHtml(value);
}

/** An element with its attributes, undefined ones omitted. Content is already XML. */
export function writeElement(name: string, attributes: Readonly<Record<string, Value>>, content = ""): string {
  const given = Object.entries(attributes).flatMap(([key, value]) =>
    value === undefined ? [] : [` ${key}="${formatAttribute(value)}"`],
  );
  return content === "" ? `<${name}${given.join("")}/>` : `<${name}${given.join("")}>${content}</${name}>`;
}

/** A path through points. */
export function writePath(points: readonly (readonly [x: number, y: number])[], closed = false): string {
  const steps = points.map(([x, y], index) => `${index === 0 ? "M" : "L"}${formatAttribute(x)} ${formatAttribute(y)}`);
  return steps.join("") + (closed ? "Z" : "");
}
