import type { Archive } from "./archive";

/**
 * The values of a cell's `cm` attribute that mark a dynamic array: those whose record is of the type XLDAPR with fDynamic
 * (ECMA-376 part 1, 18.9; MS-XLSX 2.4.53 dynamicArrayProperties).
 */
export function readDynamicMarks(archive: Archive, partName: string): Set<number> {
  const types: string[] = [];
  const dynamicRecords: boolean[] = [];
  const marks = new Set<number>();
  let section = "";
  let record = -1;
  archive.read(partName, {
    open(name, attributes) {
      if (name === "metadataType") types.push(attributes["name"] ?? "");
      else if (name === "futureMetadata") section = attributes["name"] === "XLDAPR" ? "properties" : "";
      else if (name === "cellMetadata") section = "cells";
      else if (name === "valueMetadata") section = "";
      if (name === "futureMetadata" || name === "cellMetadata") record = -1;
      if (name === "bk") record++;
      if (section === "properties" && name === "dynamicArrayProperties")
        dynamicRecords[record] = attributes["fDynamic"] === "1";
      if (section === "cells" && name === "rc") {
        const type = types[Number(attributes["t"]) - 1];
        if (type === "XLDAPR" && dynamicRecords[Number(attributes["v"])]) marks.add(record + 1);
      }
    },
    close() {},
  });
  return marks;
}
