import { type Compiler, Compilation, sources } from "webpack";

/** Puts files into a build whose text is made rather than copied, by path. */
export class TextFilesPlugin {
  constructor(private readonly files: ReadonlyMap<string, string>) {}

  apply(compiler: Compiler): void {
    compiler.hooks.thisCompilation.tap("TextFilesPlugin", (compilation) => {
      const stage = Compilation.PROCESS_ASSETS_STAGE_ADDITIONAL;
      compilation.hooks.processAssets.tap({ name: "TextFilesPlugin", stage }, () => {
        for (const [path, text] of this.files) {
          // Called minimized, or webpack would shorten a style that the policy of its page names by its digest.
          compilation.emitAsset(path, new sources.RawSource(text), { minimized: true });
        }
      });
    });
  }
}
