import type { Archive } from "../archive";

/** A link from one part to another (ECMA-376 part 2, relationships). */
export interface Relationship {
  readonly id: string;
  /** The last word of the type's address, the same in the transitional and the strict namespace: "worksheet", "styles", … */
  readonly kind: string;
  readonly target: string;
}

/** The internal relationships of a part ("" for the package itself); none when there is no such part. Links to other files are left out. */
export function readRelationships(archive: Archive, partName: string): Relationship[] {
  const found: Relationship[] = [];
  readEachRelationship(archive, partName, ({ Id: id = "", Type: type = "", Target: target = "", TargetMode: mode }) => {
    if (mode === "External") return;
    found.push({ id, kind: type.slice(type.lastIndexOf("/") + 1), target: resolvePart(partName, target) });
  });
  return found;
}

/** Where the links of a part to other files lead. */
export function readLinkTargets(archive: Archive, partName: string): string[] {
  const targets: string[] = [];
  readEachRelationship(archive, partName, ({ TargetMode: mode, Target: target = "" }) => {
    if (mode === "External") targets.push(target);
  });
  return targets;
}

function readEachRelationship(
  archive: Archive,
  partName: string,
  visit: (attributes: Readonly<Record<string, string>>) => void,
): void {
  const slash = partName.lastIndexOf("/") + 1;
  const name = `${partName.slice(0, slash)}_rels/${partName.slice(slash)}.rels`;
  if (!archive.findEntry(name)) return;
  archive.read(name, {
    open(element, attributes) {
      if (element === "Relationship") visit(attributes);
    },
    close() {},
  });
}

/** A target is relative to the folder of the referring part, or absolute from the package's root. */
function resolvePart(from: string, target: string): string {
  const folder = target.startsWith("/") ? [] : from.split("/").slice(0, -1);
  for (const step of decodeTarget(target).replaceAll("\\", "/").split("/")) {
    if (step === "..") folder.pop();
    else if (step !== "" && step !== ".") folder.push(step);
  }
  return folder.join("/");
}

function decodeTarget(target: string): string {
  try {
    return decodeURI(target);
  } catch {
    return target;
  }
}
