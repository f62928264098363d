import { columnHeads, pageHead, section } from "../blocks/heading";
import { onSheet } from "../blocks/address";
import { palette } from "../blocks/palette";
import { Sheet } from "../blocks/sheet";
import { decimals, native, style } from "../blocks/style";
import { between, oneOf, text } from "../blocks/validation";
import { envelopeSections } from "./envelope";
import { footer, letterhead, sheets, type Page } from "./places";
import { rooms } from "./scenario";
import { envelopeAreaRows } from "./envelope-area";
import { roomSizes, volumeSection } from "./volume";

const table = { first: 7, last: 24, total: 25 } as const;
const volumeAt = 27;
const envelopeAt = 36;
/** Corner tables, share, and the envelope area with its sum. */
const lastRow = envelopeAt + 27 + envelopeAreaRows;

/** Rooms, volume, floor area, outlines and envelope area: measured once, used by both directions. */
export function roomsPage(): Page {
  const sheet = new Sheet(sheets.rooms, [1.5, 29, 10.5, 10.5, 10.5, 10.5, 11, 13], palette.petrol, {
    orientation: "portrait",
    areas: [`B1:H${envelopeAt - 1}`, `B${envelopeAt}:H${lastRow}`],
    titleRows: "1:4",
    pages: 2,
    footer,
  });
  const lead = "Clear, inner dimensions. A part with a length below zero is deducted. Spare rows may stay blank.";
  pageHead(sheet, letterhead, ["B", "H"], "Rooms and envelope", lead);
  sheet.heightOf(15, 5, lastRow);
  roomTable(sheet);
  const volume = volumeSection(sheet, volumeAt, table);
  const envelope = envelopeSections(sheet, envelopeAt, table);
  return { sheet, names: { ...volume, ...envelope, FloorArea: onSheet(sheets.rooms, `F${table.total}`) } };
}

function roomTable(sheet: Sheet): void {
  const { first, last, total } = table;
  section(sheet, 5, ["B", "H"], "Rooms");
  const heads = [
    "<room, or part of one",
    "<storey",
    "length, m",
    "width, m",
    "area, m²",
    "mean height, m",
    "volume, m³",
  ];
  columnHeads(sheet, 6, "B", heads);
  for (let row = first; row <= last; row++) {
    const room = rooms[row - first];
    sheet.type(`B${row}`, room?.[0] ?? null, undefined, "left").type(`C${row}`, room?.[1] ?? null, undefined, "left");
    sheet.type(`D${row}`, room?.[2] ?? null, decimals(2)).type(`E${row}`, room?.[3] ?? null, decimals(2));
    sheet.formula(`F${row}`, `IF(COUNT(D${row}:E${row})<2,"",D${row}*E${row})`, native(decimals(2)));
    sheet.type(`G${row}`, room?.[4] ?? null, decimals(2));
    sheet.formula(`H${row}`, `IF(COUNT(F${row}:G${row})<2,"",F${row}*G${row})`, native(decimals(1)));
  }
  const sum = style({ bold: true, top: palette.petrol, align: "right" });
  sheet.put(`B${total}`, "Floor area of the rooms; sum of room volumes", style({ align: "left" }, sum));
  sheet.formula(`F${total}`, `SUM(F${first}:F${last})`, style({ format: decimals(2) }, sum));
  sheet.formula(`H${total}`, `SUM(H${first}:H${last})`, style({ format: decimals(1) }, sum));
  sheet.paint(`B${total}:H${total}`, sum);
  sheet.validate(
    text(`B${first}:B${last}`, "Room", "A room, or a part of one: break an odd plan into rectangles.", 60),
    oneOf(`C${first}:C${last}`, ["ground", "upper", "top"], "Storey", "Which storey the room is on."),
    between(
      `D${first}:D${last}`,
      ...roomSizes.length,
      "Length, m",
      "Clear length in metres. Below zero: this part is deducted.",
    ),
    between(`E${first}:E${last}`, ...roomSizes.width, "Width, m", "Clear width in metres."),
    between(
      `G${first}:G${last}`,
      ...roomSizes.height,
      "Mean height, m",
      "Clear height in metres, averaged where the ceiling slopes.",
    ),
  );
}
