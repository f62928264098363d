import { strFromU8, strToU8, unzipSync, type Zippable, zipSync } from "fflate";
import { addInRegistry } from "../../src/cli/shared/add-in";
import {
  buildCellKey,
  clientNames,
  evaluateBook,
  fillForm,
  keptName,
  listJobCells,
  openWorkbook,
  writeBack,
} from "../../src/workbook/index";
import { addressOf } from "./address";
import { firm } from "./heading";
import { type NamedRange, type WorkbookProperties, writePackage } from "./hucre";
import { type Page, type Paper, printNames, type Sheet } from "./sheet";
import { palette, typeface } from "./style";

/** Everything a workbook is made of, values not yet computed. */
export interface Recipe {
  /** File name, without folder. */
  readonly file: string;
  readonly sheets: readonly Sheet[];
  /** Defined names and the ranges behind them. */
  readonly names: Readonly<Record<string, string>>;
  readonly properties: WorkbookProperties;
  /** What the workbook is called as a blank form, of no house and no firm; what it is about, and when it was written. */
  readonly form: string;
  readonly subject: string;
  readonly written: Date;
  /** A4 where nothing is said. */
  readonly paper?: Paper;
  /** Chart series that are points without a line. */
  readonly markersOnly: readonly string[];
}

/** What a reader is told of a workbook, beside its pages. */
interface About extends Pick<Recipe, "file" | "paper"> {
  readonly title: string;
  readonly form: string;
  readonly subject: string;
  /** What of it is made up: "Firm, house and readings". */
  readonly invented: string;
  readonly written: Date;
  readonly markersOnly?: readonly string[];
}

/** A workbook of the invented firm, made of its pages in the order of their tabs. */
export function recipeOf(pages: readonly Page[], about: About): Recipe {
  const { file, paper, title, form, subject, invented, written, markersOnly = [] } = about;
  const sheets = pages.map(({ sheet }) => sheet);
  const listed: Record<string, readonly string[]> = { [keptName]: sheets.flatMap((sheet) => sheet.kept) };
  for (const [what, name] of Object.entries(clientNames))
    listed[name] = sheets.flatMap(({ clientRanges }) => clientRanges[what as keyof typeof clientNames]);
  const names = Object.assign({}, ...pages.map((page) => page.names)) as Record<string, string>;
  return {
    file,
    form,
    subject,
    written,
    sheets,
    names: {
      ...names,
      ...Object.fromEntries(
        Object.entries(listed).flatMap(([name, ranges]) => (ranges.length > 0 ? [[name, ranges.join(",")]] : [])),
      ),
    },
    properties: {
      title,
      subject,
      description: `Sample workbook. ${invented} are invented.`,
      creator: firm,
      company: firm,
      created: written,
      modified: written,
    },
    ...(paper && { paper }),
    markersOnly,
  };
}

/** The workbook's bytes, formulas without values. */
export async function bake(recipe: Recipe): Promise<Uint8Array> {
  const names: NamedRange[] = Object.entries(recipe.names).map(([name, range]) => ({ name, range }));
  for (const sheet of recipe.sheets) names.push(...printNames(sheet.name, sheet.print));
  const bytes = await writePackage(
    recipe.sheets.map((sheet) => sheet.toLibrary(recipe.paper ?? "a4")),
    names,
    recipe.properties,
    { name: typeface, size: 10, color: { rgb: palette.ink } },
  );
  return mend(bytes, new Set(recipe.markersOnly));
}

/** ZIP knows no earlier day; a fixed one keeps the files byte-identical from run to run. */
const fixedDay = "1980-01-01T00:00:00";

/** A calculation engine that Excel trusts, instead of the order to recompute all on load, which shows #NAME? where the add-in is absent. */
const trustedEngine = '<calcPr calcId="191029"/>';

/**
 * What the writing library cannot say, put into the parts of its package. `markersOnly` names the chart series that are points without a
 * connecting line.
 */
function mend(bytes: Uint8Array, markersOnly: ReadonlySet<string>): Uint8Array {
  const mended: Zippable = {};
  for (const [name, content] of Object.entries(unzipSync(bytes))) {
    mended[name] = [strToU8(mendPart(name, strFromU8(content), markersOnly)), { mtime: fixedDay }];
  }
  return zipSync(mended, { level: 9 });
}

function mendPart(name: string, xml: string, markersOnly: ReadonlySet<string>): string {
  if (name === "xl/workbook.xml") return replaceOnce(xml, /<calcPr[^>]*\/>/, trustedEngine, name);
  if (/^xl\/charts\/chart\d+\.xml$/.test(name)) return mendChart(xml, markersOnly, name);
  return xml;
}

function mendChart(xml: string, markersOnly: ReadonlySet<string>, name: string): string {
  const series = xml.replace(/<c:ser>.*?<\/c:ser>/gs, (one) => {
    const title = /<c:tx><c:v>(.*?)<\/c:v><\/c:tx>/s.exec(one)?.[1] ?? "";
    if (!markersOnly.has(title)) return one;
    const bare = one.replace(/<\/c:tx>\s*<c:spPr>.*?<\/c:spPr>/s, "</c:tx>");
    return replaceOnce(bare, "</c:tx>", "</c:tx><c:spPr><a:ln><a:noFill/></a:ln></c:spPr>", name);
  });
  const named = series.replace(/<c:tx><c:v>=(.*?)<\/c:v><\/c:tx>/gs, "<c:tx><c:strRef><c:f>$1</c:f></c:strRef></c:tx>");
  const grid = straightenLines(named)
    .replaceAll("<c:majorGridlines/>", `<c:majorGridlines>${gridLine(palette.rule)}</c:majorGridlines>`)
    .replaceAll("<c:minorGridlines/>", `<c:minorGridlines>${gridLine(palette.hair)}</c:minorGridlines>`);
  const font =
    `<c:txPr><a:bodyPr/><a:lstStyle/><a:p><a:pPr><a:defRPr><a:latin typeface="${typeface}"/></a:defRPr></a:pPr>` +
    `<a:endParaRPr lang="en-GB"/></a:p></c:txPr></c:chartSpace>`;
  return replaceOnce(grid, "</c:chartSpace>", font, name);
}

/**
 * Straight lines between points, said outright: where nothing is said, some programs draw curves. On logarithmic axes only fitted lines are
 * drawn, which are straight anyway.
 */
function straightenLines(xml: string): string {
  if (!xml.includes("<c:scatterChart>") || xml.includes("<c:logBase")) return xml;
  return xml.replace(/(?<!<c:smooth val="[01]"\/>)<\/c:ser>/g, '<c:smooth val="0"/></c:ser>');
}

/** Paper for drawing on, not bars to look through: half a point, in a pale colour. */
function gridLine(colour: string): string {
  return `<c:spPr><a:ln w="6350"><a:solidFill><a:srgbClr val="${colour}"/></a:solidFill></a:ln></c:spPr>`;
}

/** A mend that finds nothing to mend is a change in the library, and must be seen. */
function replaceOnce(xml: string, what: string | RegExp, by: string, part: string): string {
  const changed = xml.replace(what, () => by);
  if (changed === xml) throw new Error(`${part}: nothing to mend at ${String(what)}`);
  return changed;
}

/**
 * The workbook with every formula's value stored, as the project's own evaluator computes it. A cell that cannot be evaluated, and an array
 * that does not fill exactly the range that the recipe gave it, is an error of the recipe.
 */
export function fill(bytes: Uint8Array): Uint8Array {
  const opened = openWorkbook(bytes);
  const evaluation = evaluateBook(opened.book, { addIn: addInRegistry() });
  const patches = evaluation.cells.map(({ sheet, row, column, address, outcome }) => {
    if (!outcome.evaluated)
      throw new Error(`${address} is not evaluated: ${outcome.reason} (${outcome.origin ?? address})`);
    return { sheet, row, column, value: outcome.value };
  });
  const places = new Map(evaluation.cells.map((cell) => [cell.address, cell]));
  for (const { address, area } of evaluation.spills) {
    const place = places.get(address);
    const formula = place && opened.book.sheets[place.sheet]?.cells.get(buildCellKey(place.row, place.column))?.formula;
    if (formula?.array?.bottom !== area.bottom || formula.array.right !== area.right) {
      throw new Error(
        `${address} fills another range than the recipe gave it, down to ${addressOf(area.bottom, area.right)}`,
      );
    }
  }
  return writeBack(opened, patches);
}

/** The blank form of a workbook: nothing in it is a job's or a firm's, and it says of everything that it is not there yet. */
export async function bakeForm(recipe: Recipe): Promise<Uint8Array> {
  const { subject, written } = recipe;
  const properties = { title: recipe.form, subject, created: written, modified: written };
  const filled = openWorkbook(await bake({ ...recipe, properties }));
  return dropUnusedTexts(fillForm(filled, listJobCells(filled), addInRegistry()));
}

/** A text that no cell shows any more is still in the package's list of texts: names of the example would go out with every job. */
function dropUnusedTexts(bytes: Uint8Array): Uint8Array {
  const parts = unzipSync(bytes);
  const used = new Set<number>();
  for (const [name, content] of Object.entries(parts)) {
    if (!name.startsWith("xl/worksheets/")) continue;
    for (const [, index] of strFromU8(content).matchAll(/<c [^>]*t="s"[^>]*><v>(\d+)<\/v>/g)) used.add(Number(index));
  }
  const list = strFromU8(parts[textsPart] ?? new Uint8Array());
  let index = 0;
  const kept = list.replace(/<si>.*?<\/si>|<si\/>/gs, (text) => (used.has(index++) ? text : "<si><t></t></si>"));
  const packed: Zippable = {};
  for (const [name, content] of Object.entries(parts))
    packed[name] = [name === textsPart ? strToU8(kept) : content, { mtime: fixedDay }];
  return zipSync(packed, { level: 9 });
}

const textsPart = "xl/sharedStrings.xml";
