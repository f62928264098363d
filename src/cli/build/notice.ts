/** The text that goes with the bundles about what others wrote in them: webpack's runtime, with its licence. */
export function noticeFor(version: string, licenceOfWebpack: string): string {
  return `Stillair ${version}: its licence is in LICENSE.txt.

functions.js and taskpane.js begin with a few hundred bytes of the runtime of webpack, under this licence:

${licenceOfWebpack.trim()}

taskpane.html loads office.js from Microsoft's address; it is not part of these files. Nothing else in them was written by others.
`;
}

/** Names the packages whose code is in the bundles, which the notice does not mention. */
export function foreignProblems(files: readonly string[]): string[] {
  const packages = new Set(
    files.flatMap((file) => /node_modules[\\/]((?:@[^\\/]+[\\/])?[^\\/]+)/.exec(file)?.[1] ?? []),
  );
  return [...packages].map((name) => `the bundles hold code of ${name}, which NOTICE.txt does not mention`);
}
