import type { ErrorCode } from "../../model";
import type { Archive } from "../archive";

/** The kinds of error by the errorType of a rich value of the structure "_error"; common practice of readers, no published table known. */
const kinds: Readonly<Record<number, ErrorCode>> = {
  8: "#SPILL!",
  9: "#CONNECT!",
  10: "#BLOCKED!",
  11: "#UNKNOWN!",
  12: "#FIELD!",
  13: "#CALC!",
  14: "#BUSY!",
};

/**
 * The errors younger than the file format: Excel stores them as #VALUE! and keeps their true kind as a rich value.
 * Gives the kind by the rich value's place in their list.
 */
export function readRichErrors(archive: Archive, valuesPart: string, structuresPart: string): Map<number, ErrorCode> {
  const errorTypeAt = readErrorStructures(archive, structuresPart);
  const errors = new Map<number, ErrorCode>();
  let place = -1;
  let structure = -1;
  let value = -1;
  let text = "";
  archive.read(valuesPart, {
    open(name, attributes, part) {
      if (name === "rv") {
        place++;
        structure = Number(attributes["s"]);
        value = -1;
      } else if (name === "v") {
        value++;
        text = "";
        part.wantText();
      }
    },
    text: (piece) => (text += piece),
    close(name, part) {
      if (name !== "v") return;
      part.noText();
      const kind = kinds[Number(text)];
      if (errorTypeAt.get(structure) === value && kind) errors.set(place, kind);
    },
  });
  return errors;
}

/** For each structure of errors, which of its values is the errorType. */
function readErrorStructures(archive: Archive, partName: string): Map<number, number> {
  const places = new Map<number, number>();
  let structure = -1;
  let key = -1;
  let isError = false;
  archive.read(partName, {
    open(name, attributes) {
      if (name === "s") {
        structure++;
        key = -1;
        isError = attributes["t"] === "_error";
      } else if (name === "k") {
        key++;
        if (isError && attributes["n"] === "errorType") places.set(structure, key);
      }
    },
    close() {},
  });
  return places;
}
