import { dynamicArrays, packageOf } from "../file/package";

type Cell = string | number | { readonly f: string; readonly ref?: string };

const escape = (text: string) => text.replaceAll("&", "&amp;").replaceAll("<", "&lt;").replaceAll('"', "&quot;");

function cellXml(address: string, cell: Cell): string {
  if (typeof cell === "number") return `<c r="${address}"><v>${cell}</v></c>`;
  if (typeof cell === "string") return `<c r="${address}" t="inlineStr"><is><t>${escape(cell)}</t></is></c>`;
  const isAddIn = cell.f.includes("_xldudf_");
  return isAddIn
    ? `<c r="${address}" cm="1"><f t="array" ref="${cell.ref ?? address}">${escape(cell.f)}</f><v>0</v></c>`
    : `<c r="${address}"><f>${escape(cell.f)}</f><v>0</v></c>`;
}

/** Cells by address, each row's in order. */
export function sheetData(cells: Readonly<Record<string, Cell>>): string {
  const rows = new Map<number, string[]>();
  for (const [address, cell] of Object.entries(cells)) {
    const row = Number(address.replace(/\D/g, ""));
    rows.set(row, [...(rows.get(row) ?? []), cellXml(address, cell)]);
  }
  const sorted = [...rows].sort(([one], [other]) => one - other);
  return `<sheetData>${sorted.map(([row, content]) => `<row r="${row}">${content.join("")}</row>`).join("")}</sheetData>`;
}

export interface TestSheet {
  readonly direction: "depressurization" | "pressurization";
  readonly coefficient?: number;
  readonly volume?: number;
  readonly excluded?: readonly number[];
  readonly units?: string;
  readonly technique?: string;
  readonly function?: "TESTRESULT" | "RESULTCARD";
  /** Rows of readings that are typed. */
  readonly count?: number;
}

export const pressures = [60, 52, 44, 36, 28, 20, 12];
/** Which readings are a little off, so that there is scatter. */
export const off = [1.004, 0.997, 1.002, 0.996, 1.003, 0.999, 1.001];
export const baseline = 1.5;

/** An invented test of one direction on a sheet of its own: q = C·Δp^0.65 but for the scatter, a baseline of 1.5 Pa, 20 °C and dry standard air on both sides. */
export function testSheet({
  direction,
  coefficient = 14,
  volume = 300,
  excluded = [],
  units = "SI",
  technique = "ordinary",
  count = 7,
  ...rest
}: TestSheet) {
  const sign = direction === "depressurization" ? -1 : 1;
  const cells: Record<string, Cell> = {};
  pressures.slice(0, count).forEach((pressure, index) => {
    const row = index + 2;
    cells[`A${row}`] = sign * pressure + baseline;
    cells[`B${row}`] = coefficient * pressure ** 0.65 * (off[index] ?? 1);
    cells[`C${row}`] = excluded.includes(row) ? "no" : "yes";
  });
  cells["E2"] = baseline;
  const settings: [string, string | number][] = [
    ["volume", volume],
    ["indoor temperature", units === "IP" ? 68 : 20],
    ["outdoor temperature", units === "IP" ? 68 : 20],
    ["flow basis", "through the envelope"],
    ["units", units],
    ["technique", technique],
  ];
  settings.forEach(([label, value], index) => {
    cells[`G${index + 2}`] = label;
    cells[`H${index + 2}`] = value;
  });
  const name = rest.function ?? "TESTRESULT";
  const call = `_xldudf_STILLAIR_${name}("${direction}",A2:A8,B2:B8,E2,E2,G2:H7,C2:C8)`;
  cells["J2"] = { f: call, ...(name === "TESTRESULT" && { ref: "J2:P42" }) };
  return sheetData(cells);
}

/** The n50 of a sheet made by testSheet. */
export const n50Of = (sheet: string) => `INDEX(${sheet}!L2:L37,MATCH("n50",${sheet}!K2:K37,0))`;

/** A workbook of such sheets. */
export function testWorkbook(sheets: Readonly<Record<string, string>>): Uint8Array {
  return packageOf({ sheets: Object.values(sheets), sheetNames: Object.keys(sheets), metadata: dynamicArrays });
}
