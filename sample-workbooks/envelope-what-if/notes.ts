import { call } from "../blocks/add-in";
import { letterhead, writeHeading, writePageHead } from "../blocks/heading";
import { writeSourcedNotes } from "../blocks/notes-page";
import { heightFor, type Page, Sheet } from "../blocks/sheet";
import { fromAddIn, looks, palette } from "../blocks/style";
import { footer, sheets, variantColumns } from "./layout";

interface Note {
  readonly subject: string;
  readonly where: string;
  readonly words: string;
  readonly source: string;
  readonly mark: "C" | "M" | "–";
}

const notes: readonly Note[] = [
  {
    subject: "Sizes",
    where: "Variants",
    words:
      "Length × width × height, and the space under a pitched roof as volume, not as floor. Envelope area: all six sides, walls to the ground and to neighbours too. Floors between storeys are part of the volume until they are taken off.",
    source: "plane geometry; ISO 9972:2015, envelope area",
    mark: "M",
  },
  {
    subject: "Volume that counts",
    where: "Variants",
    words:
      "Where the criterion counts room by room, the share that partitions and floors take is deducted; without that share the row stays blank, for the whole volume would allow too much. The share is an estimate until rooms are drawn.",
    source: "passive-house practice; the share: common practice, no source",
    mark: "–",
  },
  {
    subject: "Odd plan",
    where: "Odd plan",
    words: "Areas from corners by Gauss’s formula, walls as perimeter × height, the largest outline as ceiling.",
    source: "Gauss’s area formula",
    mark: "C",
  },
  {
    subject: "Allowed flow",
    where: "Variants",
    words:
      "Limit × the size that its quantity divides by, carried from its own pressure to 50 Pa by (50/p)ⁿ. At 50 Pa already, n plays no part; from 75, 10 or 4 Pa it does.",
    source: "ISO 9972:2015, derived quantities",
    mark: "C",
  },
  {
    subject: "Leakage areas",
    where: "Variants",
    words:
      "One flow, three numbers: at 4 Pa with discharge coefficient 1, at 10 Pa with 1, at 10 Pa with 0.611. They differ by a factor of two; none is a real hole.",
    source: "ISO 9972:2015; ASTM E779-19; CAN/CGSB-149.10",
    mark: "C",
  },
  {
    subject: "Components",
    where: "Components",
    words:
      "Amount × leakage × (50/p)ⁿ, summed. Leakages in series and the drift of seals are not in it. The sum is a lower bound for the house: what no list holds comes on top.",
    source: "EN 12207:2016; NIST library of leakage elements, app. C2",
    mark: "C",
  },
  {
    subject: "Amounts",
    where: "Components",
    words:
      "Joints follow the outline. A counted amount × (size now / size counted for), where a size is named beside it; else it stays as typed, and the words say so once a size differs by more than 2 %.",
    source: "common practice, no source",
    mark: "–",
  },
  {
    subject: "Sensitivity",
    where: "Sensitivity",
    words:
      "One assumption after another, one step down and one step up, all others as they are. Do not add the steps up: they are not an uncertainty of the whole.",
    source: "common practice, no source: steps",
    mark: "–",
  },
  {
    subject: "Fan",
    where: "Fan",
    words:
      "The leakage at the highest pressure, through the densities of the day to the device, both directions. What a fan can give falls with the pressure it works against: see its own curve.",
    source: "ISO 9972:2015, air leakage rate; certificate",
    mark: "C",
  },
  {
    subject: "Infiltration",
    where: "In use",
    words:
      "Five published models on the same leakage. They were made for different houses and climates, and differ by a factor of two and more.",
    source: "named beside each model",
    mark: "–",
  },
  {
    subject: "Heat and cost",
    where: "In use",
    words: "Heat in the air × flow × degree hours; cost is energy × the price typed in.",
    source: "EN 12831:2003; EN ISO 13789:2017",
    mark: "M",
  },
];

const look = [
  "The criterion of each variant, its edition, its volume convention: the same flow can pass over the whole volume and fail room by room.",
  "The amounts of components against the drawings; the joints follow the perimeter of the plan alone and know nothing of dormers and bays.",
  "What is left for unknown leaks: below a fifth of the limit, a usual site hardly gets there (common practice, no source).",
  "The exponent, where a limit holds at another pressure than 50 Pa or a component is known at 4 Pa only.",
];

/** What each step does, where it comes from, and what was assumed. */
export function notesPage(): Page {
  const reviewAt = 7 + notes.length + 1;
  const end = reviewAt + look.length + 2;
  const sheet = new Sheet(sheets.notes, [1.5, 16, 12, 42, 20, 5.5], palette.petrol, {
    orientation: "portrait",
    areas: [`B1:F${end}`],
    pages: 1,
    footer,
    workingPaper: true,
  });
  const lead =
    "C: read in a published text. M: from memory of the document; check your own copy. –: practice, or another sheet.";
  writePageHead(sheet, letterhead, ["B", "F"], "Notes", lead);
  writeHeading(sheet, 5, ["B", "F"], "Step by step");
  writeSourcedNotes(sheet, ["<step", "<where", "<what it does", "<<source", "<<mark"], notes, 42);
  writeHeading(sheet, reviewAt, ["B", "F"], "What to look at twice");
  sheet.height(18, reviewAt);
  look.forEach((words, index) => {
    const row = reviewAt + 1 + index;
    sheet.put(`B${row}`, words, looks.textLine).merge(`B${row}:F${row}`).height(heightFor(words, 95), row);
  });
  sheet.put(`B${end}`, "Calculation core, version", looks.label).paint(`C${end}`, looks.label);
  sheet.addIn(`D${end}`, call("METHODVERSION", variantColumns.flow), fromAddIn(undefined, "left"));
  return { sheet, names: {} };
}
