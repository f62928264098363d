import { join } from "node:path";

/** One way to call a command on a workbook. */
export interface CommandLine {
  /** The command's name in package.json. */
  readonly command: string;
  readonly arguments: readonly string[];
}

/** Where a command works: the input, one of its cells, and an empty folder for what the command writes. */
export interface Place {
  readonly file: string;
  readonly cell: string;
  readonly folder: string;
}

const ways = {
  recalc: ({ file }: Place) => [file],
  "recalc --json": ({ file }: Place) => [file, "--json", "--list"],
  "recalc --html": ({ file, folder }: Place) => [file, "--html", join(folder, "page.html")],
  "recalc --out": ({ file, folder }: Place) => [file, "--out", join(folder, "copy.xlsx"), "--keep-old-values"],
  verify: ({ file }: Place) => [file, "--list"],
  "verify --json": ({ file }: Place) => [file, "--json"],
  "verify --html": ({ file, folder }: Place) => [
    ...[file, "--html", join(folder, "report.html")],
    ...["--markdown", join(folder, "report.md")],
  ],
  trace: ({ file, cell }: Place) => [file, cell],
  "trace --json": ({ file, cell }: Place) => [file, cell, "--json"],
  "trace --html": ({ file, cell, folder }: Place) => [file, cell, "--html", "--out", join(folder, "trace.html")],
  "graph --list": ({ file }: Place) => [file, "--list"],
  graph: ({ file, folder }: Place) => [file, "--out", join(folder, "graph")],
  "issue-copy": ({ file, folder }: Place) => [
    ...[file, "--out", join(folder, "issued.xlsx")],
    ...["--recalculate", "--keep-old-values"],
  ],
} as const;

/** A command with its options, without files. */
export type Way = keyof typeof ways;

export const allWays = Object.keys(ways) as Way[];

/** The ways that between them do all the work that commands do. */
export const mainWays: readonly Way[] = [
  ...(["recalc --json", "recalc --html", "recalc --out", "verify --html"] as const),
  ...(["trace", "graph", "issue-copy"] as const),
];

/** What a command may write; anything else in its folder was left behind. */
export const outputs: readonly string[] = [
  ...["page.html", "copy.xlsx", "report.html", "report.md", "trace.html", "graph.svg", "graph.png", "issued.xlsx"],
];

export function commandLine(way: Way, place: Place): CommandLine {
  return { command: way.split(" ")[0]!, arguments: ways[way](place) };
}
