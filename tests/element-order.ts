import { readFileSync } from "node:fs";
import { SaxesParser } from "saxes";

/** What elements may hold: names are written with the prefixes given here, and [type] behind those that have an xsi:type. */
export interface ElementOrder {
  readonly namespaces: Readonly<Record<string, string>>;
  /**
   * By element, or by parent/element where the name alone does not tell: its children in order, those in brackets with | by choice;
   * ? at most once, * any number, + at least once, as in a document type definition.
   */
  readonly children: Readonly<Record<string, string>>;
  /** Elements without children. */
  readonly leaves: string;
}

/** The order of elements that a published source gives: "ecma-376", "office-manifest". */
export function publishedOrder(source: string): ElementOrder {
  const file = new URL(`authorities/${source}/children.json`, import.meta.url);
  return JSON.parse(readFileSync(file, "utf8")) as ElementOrder;
}

const schemaInstance = "http://www.w3.org/2001/XMLSchema-instance";

/** Elements of an XML text that hold what they may not, or in another order or number. */
export function orderFaults(xml: string, { namespaces, children, leaves }: ElementOrder): string[] {
  const prefixes = new Map(Object.entries(namespaces).map(([prefix, uri]) => [uri, prefix === "" ? "" : `${prefix}:`]));
  const models = new Map(leaves.split(" ").map((name) => [name, ""]));
  for (const [name, model] of Object.entries(children)) models.set(name, model);
  const faults = new Set<string>();
  const open: { readonly name: string; readonly type: string; held: string }[] = [];

  const parser = new SaxesParser({ xmlns: true });
  parser.on("opentag", ({ uri, local, attributes }) => {
    const name = `${prefixes.get(uri) ?? `{${uri}}`}${local}`;
    const type = Object.values(attributes).find((one) => one.uri === schemaInstance && one.local === "type");
    const parent = open.at(-1);
    if (parent) parent.held += `${name} `;
    open.push({ name, type: type ? `[${type.value}]` : "", held: "" });
  });
  parser.on("closetag", () => {
    const { name, type, held } = open.pop()!;
    const model = models.get(`${open.at(-1)?.name ?? ""}/${name}`) ?? models.get(name + type);
    if (model === undefined) faults.add(`there is no rule for <${name}>`);
    else if (!patternOf(model).test(held)) faults.add(`<${name}> holds "${shortened(held)}", not "${model}"`);
  });
  parser.write(xml).close();
  return [...faults];
}

const patterns = new Map<string, RegExp>();

function patternOf(model: string): RegExp {
  let pattern = patterns.get(model);
  if (!pattern) {
    const text = model.replace(/[\w:]+/g, "(?:$& )").replace(/ (?=[^)])/g, "");
    patterns.set(model, (pattern = new RegExp(`^(?:${text})$`)));
  }
  return pattern;
}

/** A thousand rows in a row are one. */
const shortened = (held: string): string => held.replace(/(\S+ )\1+/g, "$1… ").trim();
