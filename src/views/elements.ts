type Child = Node | string | undefined | false;

type Attributes = Readonly<Record<string, string | number | boolean | undefined | ((event: Event) => void)>>;

/** An element with its children. Texts become text nodes, so nothing from a workbook is ever markup. A function is a listener: onclick, oninput. */
export function element<Name extends keyof HTMLElementTagNameMap>(
  name: Name,
  attributes: Attributes = {},
  ...children: readonly Child[]
): HTMLElementTagNameMap[Name] {
  const made = document.createElement(name);
  for (const [key, value] of Object.entries(attributes)) {
    if (value === undefined || value === false) continue;
    if (typeof value === "function") made.addEventListener(key.replace(/^on/, ""), value);
    else made.setAttribute(key, value === true ? "" : String(value));
  }
  made.append(...children.filter((child): child is Node | string => child !== undefined && child !== false));
  return made;
}

/** HTML that this project wrote with every text escaped, such as a sheet; scripts in it would not run. */
export function readMarkup(html: string, type: "text/html" | "image/svg+xml" = "text/html"): DocumentFragment {
  const parsed = new DOMParser().parseFromString(html, type);
  const fragment = document.createDocumentFragment();
  const nodes = type === "text/html" ? [...parsed.body.childNodes] : [parsed.documentElement];
  fragment.append(...nodes.map((node) => document.importNode(node, true)));
  return fragment;
}

/** A table in a region that scrolls by itself and says so; the first cell of each row heads it. */
export function listTable(
  caption: string,
  heads: readonly string[],
  rows: readonly (readonly (Node | string)[])[],
  numeric: readonly number[] = [],
): HTMLElement {
  const classOf = (column: number): string | undefined => (numeric.includes(column) ? "num" : undefined);
  const head = heads.map((text, column) => element("th", { scope: "col", class: classOf(column) }, text));
  const body = rows.map((cells) =>
    element(
      "tr",
      {},
      ...cells.map((cell, column) =>
        column === 0 ? element("th", { scope: "row" }, cell) : element("td", { class: classOf(column) }, cell),
      ),
    ),
  );
  const table = element(
    "table",
    { class: "list" },
    element("caption", {}, caption),
    element("thead", {}, element("tr", {}, ...head)),
    element("tbody", {}, ...body),
  );
  return element("div", { class: "scroll", tabindex: 0, role: "region", "aria-label": caption }, table);
}

const mostRows = 10;

/** A table of which only the first rows are shown at once; `more` names what opens the others. */
export function listFolded(
  caption: string,
  heads: readonly string[],
  rows: readonly (readonly (Node | string)[])[],
  more: (count: number) => string,
): HTMLElement {
  const rest = rows.slice(mostRows);
  return element(
    "div",
    {},
    listTable(caption, heads, rows.slice(0, mostRows)),
    rest.length > 0 &&
      element("details", {}, element("summary", {}, more(rest.length)), listTable(caption, heads, rest)),
  );
}

/** A part of a view with its heading. */
export function section(title: string, ...children: readonly Child[]): HTMLElement {
  return element("section", {}, element("h3", {}, title), ...children);
}
