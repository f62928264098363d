import { Compilation, type Compiler, WebpackError } from "webpack";
import { bundleProblems, paneProblems } from "./bundle";
import { foreignProblems } from "./notice";

/** Fails the build, and with it writes nothing, where the functions.js just made and functions.json do not belong together. */
export class ChecksPlugin {
  constructor(private readonly listedIds: readonly string[]) {}

  apply(compiler: Compiler): void {
    compiler.hooks.thisCompilation.tap("ChecksPlugin", (compilation) => {
      const stage = Compilation.PROCESS_ASSETS_STAGE_REPORT;
      compilation.hooks.processAssets.tap({ name: "ChecksPlugin", stage }, () => {
        const codeOf = (file: string) => compilation.getAsset(file)?.source.source().toString();
        const code = codeOf("functions.js");
        const problems = code === undefined ? ["functions.js was not made"] : bundleProblems(code, this.listedIds);
        problems.push(...paneProblems(codeOf("taskpane.js") ?? ""), ...foreignProblems(filesIn(compilation)));
        compilation.errors.push(...problems.map((problem) => new WebpackError(problem)));
      });
    });
  }
}

/** The source files that the bundles are made of. */
function filesIn({ modules }: Compilation): string[] {
  const inner = [...modules].flatMap((module) =>
    "modules" in module ? (module.modules as (typeof module)[]) : [module],
  );
  return inner.flatMap((module) => module.nameForCondition() ?? []);
}
