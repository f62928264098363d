import { onSheet } from "../blocks/address";
import { dateFormat, decimals } from "../blocks/style";
import type { Units } from "../blocks/units";
import { gauges } from "./instruments";
import { sheets } from "./places";
import { preparationPlaces } from "./preparation";
import { type ReportWriter, shown } from "./report-writer";
import { envelopeParts, roomTable } from "./rooms";

/** The list of openings with their seals, and the instruments. */
export function preparationPart(writer: ReportWriter): void {
  writer.heading("Preparation: every opening closed, sealed or open");
  writer.heads([
    ["B", "E", "<opening"],
    ["F", "H", "<where"],
    ["I", "I", "<state"],
    ["J", "L", "<how"],
    ["M", "M", "<restored"],
  ]);
  for (const { opening, place, state, how, restored } of preparationPlaces.openings)
    writer.cells([
      ["B", "E", shown(opening)],
      ["F", "H", shown(place)],
      ["I", "I", shown(state)],
      ["J", "L", shown(how)],
      ["M", "M", shown(restored)],
    ]);
  writer.words(
    "Closed: shut as it is. Sealed: made tight for the test, and to be opened again afterwards. Open: left as in use.",
  );
  writer.skip();
  writer.heading("Instruments");
  writer.heads([
    ["B", "D", "<instrument"],
    ["E", "F", "<serial number"],
    ["G", "H", "<accuracy"],
    ["I", "I", "<certificate"],
    ["J", "K", "calibrated on"],
    ["L", "M", "valid until"],
  ]);
  for (let row = gauges.first; row <= gauges.last; row++) {
    const cell = (letter: string) => shown(onSheet(sheets.instruments, `${letter}${row}`));
    writer.cells([
      ["B", "D", cell("B")],
      ["E", "F", cell("D")],
      ["G", "H", cell("E")],
      ["I", "I", cell("F")],
      ["J", "K", cell("G"), dateFormat],
      ["L", "M", cell("H"), dateFormat],
    ]);
  }
}

/** Volume and areas with their calculation. */
export function sizesPart(writer: ReportWriter, units: Units): void {
  writer.heading("Internal volume and floor area");
  writer.heads([
    ["B", "E", "<room, or part of one"],
    ["F", "G", "<storey"],
    ["H", "H", `length, ${units.length}`],
    ["I", "I", `width, ${units.length}`],
    ["J", "K", `area, ${units.area}`],
    ["L", "L", `height, ${units.length}`],
    ["M", "M", `vol., ${units.volume}`],
  ]);
  for (let row = roomTable.first; row <= roomTable.last; row++) {
    const cell = (letter: string) => shown(onSheet(sheets.rooms, `${letter}${row}`));
    writer.cells([
      ["B", "E", cell("B")],
      ["F", "G", cell("C")],
      ["H", "H", cell("D"), decimals(2)],
      ["I", "I", cell("E"), decimals(2)],
      ["J", "K", cell("F"), decimals(2)],
      ["L", "L", cell("G"), decimals(2)],
      ["M", "M", cell("H"), decimals(1)],
    ]);
  }
  writer.cells([
    ["B", "I", '"Floor area; internal volume, "&VolumeConvention'],
    ["J", "K", "FloorArea", decimals(2)],
    ["M", "M", "InternalVolume", decimals(1)],
  ]);
  writer.skip();
  writer.heading("Envelope area");
  writer.heads([
    ["B", "G", "<part"],
    ["H", "I", `height, ${units.length}`],
    ["J", "K", `perimeter, ${units.length}`],
    ["L", "M", `area, ${units.area}`],
  ]);
  for (let row = envelopeParts.first; row <= envelopeParts.last; row++) {
    const cell = (letter: string) => onSheet(sheets.rooms, `${letter}${row}`);
    const quiet = (letter: string) => `IFERROR(${shown(cell(letter))},"")`;
    writer.cells([
      ["B", "G", shown(cell("B"))],
      ["H", "I", quiet("F"), decimals(2)],
      ["J", "K", quiet("G"), decimals(2)],
      ["L", "M", quiet("H"), decimals(2)],
    ]);
  }
  writer.cells([
    ["B", "K", '"Envelope area, ground and neighbours included"'],
    ["L", "M", 'IFERROR(EnvelopeArea,"")', decimals(2)],
  ]);
}
