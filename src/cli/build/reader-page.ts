import { createHash } from "node:crypto";
import { readFileSync } from "node:fs";
import { join } from "node:path";
import { Compilation, type Compiler, sources, WebpackError } from "webpack";
import { gzipSync } from "node:zlib";
import { listPackages, readLicence } from "./notice";
import { tokens } from "../../workbook/palette";

/** The page is one file for a memory stick or a link; larger, it opens slowly over a poor network. */
const largestGzip = 350_000;

/** The worker also runs beside the pane, as a file of its own. */
const scripts = { page: "reader.js", worker: "reviewer.js" };

/**
 * Puts the reader's style, script and worker into its one page. The page's policy names them by their digests and allows nothing else: no request, and
 * nothing that a workbook might contain.
 */
export class ReaderPagePlugin {
  constructor(private readonly root: string) {}

  apply(compiler: Compiler): void {
    compiler.hooks.thisCompilation.tap("ReaderPagePlugin", (compilation) => {
      const stage = Compilation.PROCESS_ASSETS_STAGE_OPTIMIZE_INLINE;
      compilation.hooks.processAssets.tap({ name: "ReaderPagePlugin", stage }, () => {
        const read = (name: string): string => compilation.getAsset(name)?.source.source().toString() ?? "";
        const page = composePage(this.root, read(scripts.page), read(scripts.worker));
        compilation.deleteAsset(scripts.page);
        compilation.emitAsset("reader.html", new sources.RawSource(page));
        compilation.emitAsset(
          "reader-notice.txt",
          new sources.RawSource(composeNotice(this.root, listPackages(compilation))),
        );
        const size = gzipSync(page, { level: 9 }).length;
        if (size > largestGzip)
          compilation.errors.push(new WebpackError(`reader.html is ${size} bytes gzipped, more than ${largestGzip}`));
      });
    });
  }
}

function composeNotice(root: string, packages: readonly string[]): string {
  const licences = ["webpack", ...packages].map((name) => `${name}\n\n${readLicence(root, name)}\n`);
  return `reader.html and reviewer.js hold code of these packages and of webpack's runtime, each under its licence:\n\n${licences.join("\n\n")}`;
}

const digest = (text: string): string => `'sha256-${createHash("sha256").update(text).digest("base64")}'`;

/** A script's end within a script would end the page's own. */
const guard = (code: string): string => code.replaceAll("</script", "<\\/script").replaceAll("<!--", "<\\!--");

function composePage(root: string, script: string, worker: string): string {
  const read = (file: string): string => readFileSync(join(root, file), "utf8");
  const style = `${tokens}\n${read("src/reader/reader.css")}\n${read("src/views/views.css")}`;
  const code = guard(script);
  const policy = [
    "default-src 'none'",
    `script-src ${digest(code)} blob:`,
    `style-src ${digest(style)}`,
    "img-src blob: data: 'self'",
    "worker-src blob: 'self'",
    "manifest-src 'self'",
    "connect-src 'none'",
    "base-uri 'none'",
    "form-action 'none'",
  ].join("; ");
  const parts: Readonly<Record<string, string>> = {
    policy: `<meta http-equiv="Content-Security-Policy" content="${policy}" />`,
    style: `<style>${style}</style>`,
    scripts: `<script type="text/plain" id="worker-code">${guard(worker)}</script>\n<script>${code}</script>`,
  };
  return read("src/reader/reader.html").replace(
    /<!-- (policy|style|scripts) -->/g,
    (_, name: string) => parts[name] ?? "",
  );
}
