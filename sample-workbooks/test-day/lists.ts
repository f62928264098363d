import { statusList } from "../blocks/check-lists";
import { cautions, packing, people } from "./lists-data";
import { footer, sheets } from "./places";

const practice = "Common practice, no source; add what your own jobs have taught you.";

/** What goes into the van. */
export const packingList = statusList({
  name: sheets.pack,
  title: "To pack",
  lead: "Ticked off at the van, not from memory.",
  footer,
  stages: packing,
  spare: 1,
  closing: practice,
});

/** Who has to know of the test, and what. */
export const peopleList = statusList({
  name: sheets.people,
  title: "People to tell",
  lead: "Each of them the day before, at the latest.",
  footer,
  stages: people,
  spare: 1,
  closing: practice,
});

/** What may harm people, animals or the house. */
export const cautionsList = statusList({
  name: sheets.cautions,
  title: "Cautions",
  lead: "Asked on the telephone before leaving, looked at again on site.",
  footer,
  stages: cautions,
  spare: 1,
  closing:
    "The results are the tester’s responsibility under local codes. The workbook replaces no licence, and no local rule.",
});
