import { examples } from "./examples";
import functionList from "./functions.json";
import * as functions from "./index";
import takers from "./settings/takers.json";

interface ListedFunction {
  readonly id: string;
  readonly description: string;
  readonly parameters: readonly { readonly name: string; readonly dimensionality?: string }[];
}

/** How many cells a result fills, as its example does; undefined for one column, whose rows are those of the inputs. */
interface ResultSize {
  readonly rows: number;
  readonly columns: number;
  /** What each row stands for, where the inputs say how many there are. */
  readonly per: string | undefined;
  readonly mayHaveHeadings: boolean;
}

function findResultSize(id: string): ResultSize | undefined {
  const entry = (functionList.functions as readonly ListedFunction[]).find((one) => one.id === id);
  const compute = Object.entries(functions).find(([name]) => name.toUpperCase() === id)?.[1];
  const example = examples[id];
  if (!entry || !compute || !example) return undefined;
  const given = example.arguments.map((value, place) =>
    entry.parameters[place]?.dimensionality === "matrix" && value !== null && typeof value !== "object"
      ? [[value]]
      : value,
  );
  const result = (compute as (...given: unknown[]) => unknown)(...given);
  const rows = Array.isArray(result) ? (result as unknown[][]) : [[result]];
  const columns = rows[0]?.length ?? 0;
  if (columns <= 1) return undefined;
  const [, unit] = /\b(?:one row|cells) per (reading|station|test|pair|size|row)\b/.exec(entry.description) ?? [];
  const mayHaveHeadings = takers.headings.includes(id) || entry.parameters.some(({ name }) => name === "headings");
  return { rows: rows.length, columns, per: unit, mayHaveHeadings };
}

/** The size of a result in words, for whoever reserves cells for it; "" for one column. */
export function describeResultSize(id: string): string {
  const size = findResultSize(id);
  if (!size) return "";
  const { rows, columns, per, mayHaveHeadings } = size;
  if (per === undefined) {
    const headed = mayHaveHeadings ? `, ${rows + 1} rows with headings` : "";
    return `${rows} rows × ${columns} columns${headed}`;
  }
  const headed = mayHaveHeadings ? ", one more with headings" : "";
  return `${columns} columns, one row for each ${per === "row" ? "row of the inputs" : per}${headed}`;
}
