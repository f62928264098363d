import { strFromU8, strToU8, unzipSync, type Zippable, zipSync } from "fflate";
import { palette, typeface } from "./style";

/** ZIP knows no earlier day; a fixed one keeps the files byte-identical from run to run. */
const fixedDay = "1980-01-01T00:00:00";

/** A calculation engine that Excel trusts, instead of the order to recompute all on load, which shows #NAME? where the add-in is absent. */
const trustedEngine = '<calcPr calcId="191029"/>';

/**
 * What the writing library cannot say, put into the parts of its package. `markersOnly` names the chart series that are points without a
 * connecting line.
 */
export function mend(bytes: Uint8Array, markersOnly: ReadonlySet<string>): Uint8Array {
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
  const grid = straight(series)
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
function straight(xml: string): string {
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
