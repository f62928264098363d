/** One entry of a zip directory, with the places in the file that a faithful copy needs. */
export interface ZipEntry {
  readonly name: string;
  readonly method: number;
  readonly checksum: number;
  readonly packedSize: number;
  readonly size: number;
  /** Where the local header starts, and where the packed bytes start. */
  readonly headerAt: number;
  readonly dataAt: number;
  /** Where this entry's record in the central directory starts and ends. */
  readonly recordAt: number;
  readonly recordEnd: number;
}

/** Where an entry is written in a copy, and how large it is. */
export interface EntrySizes {
  readonly at: number;
  readonly checksum: number;
  readonly packedSize: number;
  readonly size: number;
}
