import type { Status } from "../blocks/check-lists";

/** Methods of ISO 9972:2015 with their purpose (M). */
export const methods = [
  ["method 1", "the building in use, as it is lived in."],
  ["method 2", "the envelope alone, all openings made on purpose sealed."],
  ["method 3", "a specific purpose, such as a certificate, which says what is closed, sealed or open."],
] as const;

/** Kinds of openings, and what methods 1, 2 and 3 do with them. */
export const kinds: readonly (readonly [kind: string, first: string, second: string, third: string])[] = [
  ["natural ventilation", "closed", "sealed", "as specified"],
  ["whole-house ventilation, air conditioning", "sealed", "sealed", "as specified"],
  ["ventilation used now and then", "closed", "sealed", "as specified"],
  ["window, door, hatch", "closed", "closed", "as specified"],
  ["not meant for ventilation", "closed", "sealed", "as specified"],
];

/** Openings of the invented house: name, place among the kinds, how far it is. */
export const openingsOfHouse: readonly (readonly [opening: string, kind: number, status: Status])[] = [
  ["Vents in the window frames", 0, "not yet"],
  ["Air brick in the larder", 0, "done"],
  ["Ventilation unit: outdoor and exhaust air", 1, "not yet"],
  ["Kitchen hood to outdoors", 2, "not yet"],
  ["Bathroom fan", 2, "not yet"],
  ["Tumble dryer outlet", 2, "n/a"],
  ["Windows", 3, "done"],
  ["Outer doors other than the fan’s", 3, "done"],
  ["Roof hatch, inside the envelope line", 3, "done"],
  ["Door to the unheated store", 3, "not yet"],
  ["Stove: door, air supply, damper", 4, "not yet"],
  ["Letter box", 4, "not yet"],
  ["Cat flap", 4, "n/a"],
  ["Service entries not yet connected", 4, "not yet"],
];
