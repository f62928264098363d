import type { Archive } from "../archive";

/** What the `cm` and `vm` attributes of cells stand for. */
export interface CellMetadata {
  /** The values of `cm` that mark a dynamic array (MS-XLSX, dynamicArrayProperties). */
  readonly dynamicMarks: ReadonlySet<number>;
  /** The rich value, by its place in their list, that a value of `vm` stands for (MS-XLSX, rvb). */
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
