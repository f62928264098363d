import { createHash } from "node:crypto";
import HtmlPlugin from "html-webpack-plugin";
import type { Compiler } from "webpack";

/** Lets the page ask for each script by the digest of its content, so that a new one is fetched and the same one, wherever it was built, is not. */
export class ContentQueryPlugin {
  apply(compiler: Compiler): void {
    compiler.hooks.compilation.tap("ContentQueryPlugin", (compilation) => {
      const computeDigest = (file: string): string => {
        const source = compilation.getAsset(file)?.source.source() ?? "";
        return createHash("sha256").update(source).digest("hex").slice(0, 20);
      };
      HtmlPlugin.getCompilationHooks(compilation).beforeAssetTagGeneration.tap("ContentQueryPlugin", (data) => ({
        ...data,
        assets: { ...data.assets, js: data.assets.js.map((file) => `${file}?${computeDigest(file)}`) },
      }));
    });
  }
}
