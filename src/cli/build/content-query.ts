import { createHash } from "node:crypto";
import HtmlPlugin from "html-webpack-plugin";
import type { Compiler } from "webpack";

/** Makes the page request each script by a digest of its content, so that a changed one is fetched and an identical one, wherever built, is not. */
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
