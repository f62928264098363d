import type { Spot, Tampered } from "../tampered";
import type { Tampering } from "./tampering";

const firstRoom = (workbook: Tampered, columns: number): Spot =>
  workbook.beside(workbook.find(/^room, or part of one$/, "Rooms"), columns, 1);

/** The sum of the volumes: the last column of the list of rooms, in the first row of sums. */
const sumOf = (workbook: Tampered): Spot => workbook.find(/SUM\(H\d+:H\d+\)/, "Rooms");

const adjusted = (change: (text: string, rows: readonly [string, string]) => string) => (workbook: Tampered) => {
  const sum = sumOf(workbook);
  workbook.reformulate(sum, (text) =>
    text.replace(/SUM\(H(\d+):H(\d+)\)/, (whole, top: string, bottom: string) => change(whole, [top, bottom])),
  );
  return sum;
};

/** What is done to the sizes of a house at the ends of its list of rooms and in their sum. */
export const sums: readonly Tampering[] = [
  {
    what: "the volume of the first room typed over its formula",
    kind: "formula overwritten",
    plant(workbook) {
      const spot = firstRoom(workbook, 6);
      workbook.put(spot, 92);
      return spot;
    },
  },
  {
    what: "the area of the first room typed over its formula",
    kind: "formula overwritten",
    plant(workbook) {
      const spot = firstRoom(workbook, 4);
      workbook.put(spot, 37.5);
      return spot;
    },
  },
  {
    what: "the sum of the volumes typed over its formula",
    kind: "formula overwritten",
    plant(workbook) {
      const spot = sumOf(workbook);
      workbook.put(spot, 380);
      return spot;
    },
  },
  {
    what: "a room counted twice in a sum that is blank without rooms",
    kind: "counted twice",
    plant: adjusted((sum, [top]) => `${sum}+H${top}`),
  },
  {
    what: "a fifth of two rooms added to a sum that contains them",
    kind: "counted twice",
    plant: adjusted((sum, [top]) => `${sum}+SUM(H${top}:H${Number(top) + 1})*0.2`),
  },
  {
    what: "a whole number of cubic metres added to a sum",
    kind: "hard-coded figure",
    plant: adjusted((sum) => `${sum}+15`),
  },
];
