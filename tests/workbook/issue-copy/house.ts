import { unzipSync } from "fflate";
import { dynamicArrays, packageOf, type PackageOptions } from "../file/package";

const inline = (address: string, words: string) => `<c r="${address}" t="inlineStr"><is><t>${words}</t></is></c>`;

export const call = (address: string, formula: string, value: string, range = address) =>
  `<c r="${address}" s="1" cm="1"><f t="array" ref="${range}">${formula}</f><v>${value}</v></c>`;

export const rows = (...cells: string[]) =>
  `<sheetData>${cells.map((content, place) => `<row r="${place + 1}">${content}</row>`).join("")}</sheetData>`;

export const styles =
  '<fonts count="1"><font><sz val="11"/></font></fonts><fills count="1"><fill><patternFill patternType="none"/></fill></fills>' +
  '<borders count="1"><border><left/><right/><top/><bottom/><diagonal/></border></borders>' +
  '<cellXfs count="2"><xf numFmtId="0" fontId="0" fillId="0" borderId="0"/><xf numFmtId="2" fontId="0" fillId="0" borderId="0"/></cellXfs>';

/** A house: its volume and flow, the air change rate by the add-in, its double by an ordinary formula. */
export const house = (more: Partial<PackageOptions> = {}, rate = "0.6") =>
  packageOf({
    sheets: [
      rows(
        `${inline("A1", "Volume")}<c r="B1"><v>300</v></c>`,
        `${inline("A2", "Flow")}<c r="B2"><v>180</v></c>`,
        `${inline("A3", "Air change rate")}${call("B3", "_xldudf_STILLAIR_AIRCHANGERATE(B2,B1)", rate)}`,
        `${inline("A4", "Double")}<c r="B4"><f>B3*2</f><v>1.2</v></c>`,
      ),
    ],
    sheetNames: ["House"],
    metadata: dynamicArrays,
    styles,
    ...more,
  });

export const text = (bytes: Uint8Array, name: string) => new TextDecoder().decode(unzipSync(bytes)[name]);
