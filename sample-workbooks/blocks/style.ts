import { type CellLook, cellLooks, decimals, shortDay } from "../../src/workbook/looks";
import { palette, typeface } from "../../src/workbook/palette";
import type { CellStyle, FontStyle } from "./hucre";

export { decimals, palette, shortDay, typeface };

export type Side = "left" | "center" | "right";

interface Touches extends Omit<CellLook, "align"> {
  readonly italic?: boolean;
  readonly align?: Side;
  readonly vertical?: "top" | "center" | "bottom";
  readonly wrap?: boolean;
  /** Smaller letters rather than a cut-off text. */
  readonly shrink?: boolean;
  readonly format?: string;
  readonly top?: string;
  readonly unlocked?: boolean;
}

const solid = (rgb: string) => ({ type: "pattern", pattern: "solid", fgColor: { rgb } }) as const;

/** A cell style from a few words; `base` is changed where a word is given. */
export function style(touches: Touches, base: CellStyle = {}): CellStyle {
  const font: FontStyle = { name: typeface, size: 9, color: { rgb: palette.ink }, ...base.font };
  if (touches.size !== undefined) font.size = touches.size;
  if (touches.bold !== undefined) font.bold = touches.bold;
  if (touches.italic !== undefined) font.italic = touches.italic;
  if (touches.colour !== undefined) font.color = { rgb: touches.colour };
  const result: CellStyle = { ...base, font };
  if (touches.fill !== undefined) result.fill = solid(touches.fill);
  if (touches.format !== undefined) result.numFmt = touches.format;
  const alignment = { vertical: "center" as const, ...base.alignment };
  result.alignment = {
    ...alignment,
    ...(touches.align && { horizontal: touches.align }),
    ...(touches.vertical && { vertical: touches.vertical }),
    ...(touches.wrap !== undefined && { wrapText: touches.wrap }),
    ...(touches.indent !== undefined && { indent: touches.indent }),
    ...(touches.shrink !== undefined && { shrinkToFit: touches.shrink }),
  };
  if (touches.top ?? touches.bottom) {
    result.border = {
      ...base.border,
      ...(touches.top && { top: { style: "thin", color: { rgb: touches.top } } }),
      ...(touches.bottom && { bottom: { style: "thin", color: { rgb: touches.bottom } } }),
    };
  }
  if (touches.edge) {
    const edge = { style: "thin" as const, color: { rgb: touches.edge } };
    result.border = { bottom: edge, top: edge, left: edge, right: edge };
  }
  if (touches.unlocked) result.protection = { locked: false };
  return result;
}

/** A probability that is nearly sure is not shown as sure. */
export const probabilityFormat = '[>=0.9995]"> 99.9 %";[<0.0005]"< 0.1 %";0.0 %';

/** Day, month in words, year: no locale reads it the wrong way round. */
export const dateFormat = "d mmmm yyyy";

/** A calendar day as Excel counts days. */
export function daySerial(year: number, month: number, dayOfMonth: number): number {
  return Date.UTC(year, month - 1, dayOfMonth) / 86_400_000 + 25_569;
}

const line = palette.hair;

/** The few looks that every sheet is made of. */
export const looks = {
  brand: style({ size: 8, bold: true, colour: palette.copper }),
  title: style({ size: 20, colour: palette.petrol, vertical: "bottom" }),
  titleRight: style({ size: 9, colour: palette.grey, align: "right", vertical: "bottom" }),
  lead: style({ size: 9, colour: palette.grey, wrap: true, vertical: "top" }),
  heading: style({ ...cellLooks.heading, vertical: "bottom" }),
  headingRule: style({ bottom: palette.petrol }),
  columnHead: style({ ...cellLooks.columnHead, wrap: true, vertical: "bottom" }),
  columnHeadLeft: style({ ...cellLooks.columnHeadLeft, wrap: true, vertical: "bottom" }),
  group: style({ size: 8, bold: true, colour: palette.petrol, align: "left", vertical: "bottom" }),
  label: style(cellLooks.label),
  unit: style(cellLooks.unit),
  note: style({ ...cellLooks.note, wrap: true, vertical: "top" }),
  noteLine: style({ size: 8, colour: palette.grey, wrap: true, bottom: line }),
  text: style({ wrap: true, vertical: "top" }),
  textLine: style({ wrap: true, bottom: line }),
  strong: style(cellLooks.strong),
} as const;

/** A cell to type into, unlocked. */
export function input(format?: string, align: Side = "right", wrap = false): CellStyle {
  return style({ ...cellLooks.input, align, unlocked: true, wrap, ...(format && { format }) });
}

/** A native formula. */
export function native(format?: string, align: Side = "right"): CellStyle {
  return style({ ...cellLooks.native, align, ...(format && { format }) });
}

/** A cell that the add-in fills. */
export function fromAddIn(format?: string, align: Side = "right", size = 9): CellStyle {
  return style({ ...cellLooks.fromAddIn, align, size, ...(format && { format }) });
}
