import type { ErrorCode } from "../../model";
import type { Archive } from "../archive";

/** The meaning of the `cm` and `vm` attributes of cells. */
interface CellMetadata {
  /** The values of `cm` that mark a dynamic array (MS-XLSX, dynamicArrayProperties). */
  readonly dynamicMarks: ReadonlySet<number>;
  /** The rich value, by its place in their list, for a value of `vm` (MS-XLSX, rvb). */
  readonly richValues: ReadonlyMap<number, number>;
}

export const noMetadata: CellMetadata = { dynamicMarks: new Set(), richValues: new Map() };

type Section = "futureMetadata" | "cellMetadata" | "valueMetadata" | undefined;

/** Reads xl/metadata.xml (ECMA-376 part 1, 18.9): blocks of records, each of a type and pointing to the type's own list. */
export function readMetadata(archive: Archive, partName: string): CellMetadata {
  const types: string[] = [];
  const dynamicBlocks = new Set<number>();
  const richBlocks = new Map<number, number>();
  const dynamicMarks = new Set<number>();
  const richValues = new Map<number, number>();
  let section: Section;
  let block = -1;
  archive.read(partName, {
    open(name, attributes) {
      if (name === "metadataType") types.push(attributes["name"] ?? "");
      else if (name === "futureMetadata" || name === "cellMetadata" || name === "valueMetadata") {
        section = name;
        block = -1;
      } else if (name === "bk") block++;
      else if (name === "dynamicArrayProperties" && attributes["fDynamic"] === "1") dynamicBlocks.add(block);
      else if (name === "rvb") richBlocks.set(block, Number(attributes["i"]));
      else if (name === "rc") {
        const type = types[Number(attributes["t"]) - 1];
        const target = Number(attributes["v"]);
        const rich = richBlocks.get(target);
        // Marks count from 1.
        if (section === "cellMetadata" && type === "XLDAPR" && dynamicBlocks.has(target)) dynamicMarks.add(block + 1);
        if (section === "valueMetadata" && type === "XLRICHVALUE" && rich !== undefined)
          richValues.set(block + 1, rich);
      }
    },
    close() {},
  });
  return { dynamicMarks, richValues };
}

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
 * The errors newer than the file format: Excel stores them as #VALUE! and keeps their true kind as a rich value.
 * Returns the kind by the rich value's place in their list.
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
    addText: (piece) => (text += piece),
    close(name, part) {
      if (name !== "v") return;
      part.ignoreText();
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
