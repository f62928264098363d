import vm from "node:vm";
import { gzipSync } from "node:zlib";
import { Compilation, type Compiler, WebpackError } from "webpack";
import { listPackages } from "./notice";

/** Fails the build, writing nothing, if the new functions.js and functions.json do not match. */
export class ChecksPlugin {
  constructor(private readonly listedIds: readonly string[]) {}

  apply(compiler: Compiler): void {
    compiler.hooks.thisCompilation.tap("ChecksPlugin", (compilation) => {
      const stage = Compilation.PROCESS_ASSETS_STAGE_REPORT;
      compilation.hooks.processAssets.tap({ name: "ChecksPlugin", stage }, () => {
        const readCode = (file: string) => compilation.getAsset(file)?.source.source().toString();
        const code = readCode("functions.js");
        const problems = code === undefined ? ["functions.js was not made"] : findBundleProblems(code, this.listedIds);
        problems.push(
          ...findPaneProblems(readCode("taskpane.js") ?? ""),
          ...listPackages(compilation).map(
            (name) => `the bundles hold code of ${name}, which NOTICE.txt does not mention`,
          ),
        );
        compilation.errors.push(...problems.map((problem) => new WebpackError(problem)));
      });
    });
  }
}

/** Excel fetches this file before the first cell can calculate. */
const largestGzip = 60_000;

/**
 * Reports problems with a built functions.js: runs the file as Excel's runtime would, with string code generation off and
 * only `CustomFunctions` available, and compares what it registers with functions.json.
 */
export function findBundleProblems(code: string, listedIds: readonly string[]): string[] {
  const { ids, failure } = collectRegisteredIds(code);
  const problems = failure === undefined ? [] : [`functions.js does not start: ${failure}`];
  const registered = new Set(ids);
  for (const id of registered)
    if (ids.filter((other) => other === id).length > 1) problems.push(`${id} is registered more than once`);
  for (const id of listedIds)
    if (!registered.has(id)) problems.push(`${id} is listed in functions.json, but functions.js does not register it`);
  for (const id of registered)
    if (!listedIds.includes(id)) problems.push(`${id} is registered by functions.js, but not listed in functions.json`);
  if (/\beval\s*\(|\bFunction\s*\(/.test(code))
    problems.push("functions.js makes code from strings, which the page's policy forbids");
  const size = gzipSync(code, { level: 9 }).length;
  if (size > largestGzip) problems.push(`functions.js is ${size} bytes gzipped, more than ${largestGzip}`);
  return problems;
}

/** Reports problems with a built taskpane.js: the pane's page also loads functions.js, so a function in both would be registered twice. */
export function findPaneProblems(code: string): string[] {
  return code.includes("CustomFunctions.associate")
    ? ["taskpane.js registers functions, which functions.js does already"]
    : [];
}

function collectRegisteredIds(code: string): { ids: string[]; failure?: string } {
  const ids: string[] = [];
  class StubError extends Error {}
  const CustomFunctions = {
    associate: (id: string) => void ids.push(id),
    Error: StubError,
    ErrorCode: { invalidValue: "#VALUE!", notAvailable: "#N/A" },
  };
  const context = vm.createContext({ CustomFunctions }, { codeGeneration: { strings: false, wasm: false } });
  try {
    vm.runInContext(code, context, { filename: "functions.js", timeout: 10_000 });
    return { ids };
  } catch (error) {
    return { ids, failure: String(error) };
  }
}

/** The notice shipped with the bundles about third-party code in them: what webpack puts around ours, with its licence. */
export function composeNotice(version: string, licenceOfWebpack: string): string {
  return `Stillair ${version}: its licence is in LICENSE.txt.

functions.js and taskpane.js are joined by webpack; what it adds to them is under this licence:

${licenceOfWebpack.trim()}

taskpane.html loads office.js from Microsoft's address; it is not part of these files. Nothing else in them was written by others.
`;
}
