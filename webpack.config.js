import { readFileSync } from "node:fs";
import { join, resolve } from "node:path";
import CopyPlugin from "copy-webpack-plugin";
import HtmlPlugin from "html-webpack-plugin";
import MinimizerPlugin from "minimizer-webpack-plugin";
import webpack from "webpack";
import { readAddress } from "./src/cli/build/address";
import { ChecksPlugin, composeNotice } from "./src/cli/build/checks-plugin";
import { ContentQueryPlugin } from "./src/cli/build/content-query";
import { readExcel } from "./src/cli/build/excel";
import { writeFunctionsJson, selectFunctions } from "./src/cli/build/functions-json";
import { fillManifest } from "./src/cli/build/manifest";
import { ReaderPagePlugin } from "./src/cli/build/reader-page";
import { TextFilesPlugin } from "./src/cli/build/text-files";
import { placeholderBase } from "./src/cli/metadata/generate";
import { readMetadata } from "./src/cli/metadata/rules";
import { writeHelpPages } from "./src/taskpane/help-pages/help-pages";
import { referencePage } from "./src/taskpane/reference-page";
import { tokens } from "./src/workbook/palette";
import { writeCautions } from "./src/taskpane/cautions";
import { composeFunctionList, composeSettingList } from "./src/taskpane/page-data";
import { settingsPage } from "./src/taskpane/settings-page";

const root = import.meta.dirname;

/** TypeScript to modules, and the smallest code. */
const shared = {
  mode: "production",
  // The syntax of tsconfig.json; the newest calls in it (Object.hasOwn, at, findLast) came with Safari 15.4.
  target: ["web", "es2022"],
  context: root,
  resolve: { extensions: [".ts", ".js"] },
  module: {
    rules: [
      {
        test: /\.ts$/,
        // Modules alone, no CommonJS: webpack would otherwise take a function of ours named "require" for its own.
        type: "javascript/esm",
        resolve: { fullySpecified: false },
        loader: "ts-loader",
        // Types are checked by "npm run types", over everything at once.
        options: {
          transpileOnly: true,
          configFile: join(root, "tsconfig.json"),
          compilerOptions: { noEmit: false },
        },
      },
    ],
  },
  performance: false,
};

const minifyScripts = (compress) =>
  new MinimizerPlugin({
    extractComments: false,
    minify: { implementation: MinimizerPlugin.swcMinify, options: { compress, mangle: true } },
  });

/**
 * Builds plain files for any https server: the add-in, and the review page in one file.
 */
export default function configurations(env = {}) {
  return [addInConfiguration(env), readerConfiguration(env)];
}

const folderOf = (env) => env.output ?? join(root, readExcel(env.excel ?? process.env.EXCEL ?? "365").folder);

/** The review page: reader.html, which needs nothing beside it, and what keeps a served one for use without a network. */
export function readerConfiguration(env = {}) {
  return {
    ...shared,
    name: "reader",
    dependencies: ["add-in"],
    devtool: false,
    entry: { reader: "./src/reader/reader.ts", reviewer: "./src/views/worker.ts" },
    output: { path: folderOf(env), filename: "[name].js" },
    // Scripts alone: the page is composed of them, and its policy names it byte for byte.
    optimization: { minimizer: [minifyScripts({ passes: 5, inline: 1 })] },
    plugins: [
      new ReaderPagePlugin(root),
      new CopyPlugin({
        patterns: [
          { from: "src/reader/reader-offline.js", to: "reader-offline.js" },
          { from: "src/reader/reader.webmanifest", to: "reader.webmanifest" },
        ],
      }),
    ],
  };
}

/**
 * Builds plain files for any https server: dist/ for Microsoft 365 and the web, with `EXCEL=perpetual` dist-perpetual/ for Excel that was bought once.
 * `ADDIN_URL` is the address that they will be served from.
 * `env.functions` and `env.output` are other folders than src/functions and the build's own (tests use them).
 */
export function addInConfiguration(env = {}) {
  const address = readAddress(env.address ?? process.env.ADDIN_URL ?? placeholderBase);
  const excel = readExcel(env.excel ?? process.env.EXCEL ?? "365");
  const { version } = JSON.parse(readFileSync(join(root, "package.json"), "utf8"));
  const functions = resolve(root, env.functions ?? "src/functions");
  const metadata = readMetadata(readFileSync(join(functions, "functions.json"), "utf8"));
  const listed = selectFunctions(metadata, excel);

  return {
    ...shared,
    name: "add-in",
    // A source map beside the file: the page's policy forbids code from strings.
    devtool: "source-map",
    entry: {
      functions: join(functions, excel.entry),
      // Nothing in common with the other one, so that each starts alone; the build fails where the pane registers functions too.
      taskpane: "./src/taskpane/taskpane.ts",
    },
    output: {
      path: folderOf(env),
      filename: "[name].js",
      clean: true,
      // Not "self": the functions must also start where there is neither window nor worker.
      globalObject: "globalThis",
    },
    optimization: {
      // Makes functions.js some 900 bytes smaller than webpack's own minifier does; none of our getters has a side effect.
      minimizer: [minifyScripts({ passes: 5, inline: 1, pure_getters: true, unsafe_arrows: true }), "..."],
    },
    plugins: [
      // Where functions.js runs there is CustomFunctions: the errors for other hosts stay out of it.
      new webpack.DefinePlugin({ "typeof CustomFunctions": JSON.stringify("object") }),
      new HtmlPlugin({
        template: "src/taskpane/taskpane.html",
        filename: "taskpane.html",
        chunks: ["functions", "taskpane"],
        scriptLoading: "defer",
        templateParameters: {
          version,
          functionsRuntime: excel.functionsRuntime,
          settings: settingsPage(),
          cautions: writeCautions(),
          functionList: composeFunctionList({ ...metadata, functions: listed }),
          settingList: composeSettingList(),
          ...referencePage({ functions: listed }),
        },
      }),
      new ContentQueryPlugin(),
      new TextFilesPlugin(
        writeHelpPages({
          functions: listed,
          version,
          style: readFileSync(join(root, "src/taskpane/help-pages/help-pages.css"), "utf8"),
        }),
      ),
      new CopyPlugin({
        patterns: [
          { from: "LICENSE", to: "LICENSE.txt" },
          // Webpack's runtime is the only work of others in the bundles.
          {
            from: "node_modules/webpack/LICENSE",
            to: "NOTICE.txt",
            transform: (licence) => composeNotice(version, licence.toString()),
          },
          {
            from: "src/taskpane/taskpane.css",
            to: "taskpane.css",
            transform: (own) =>
              `${tokens}\n${own.toString()}\n${readFileSync(join(root, "src/views/views.css"), "utf8")}`,
          },
          // Fetched one at a time, when a person asks for one.
          { from: "sample-workbooks/blank/*.xlsx", to: "forms/[name][ext]" },
          { from: "src/taskpane/icons/*.png", to: "assets/[name][ext]" },
          { from: "src/taskpane/shortcuts.json", to: "shortcuts.json" },
          {
            from: join(functions, "functions.json"),
            to: "functions.json",
            transform: () => writeFunctionsJson(metadata, excel, address),
          },
          {
            from: "manifest.xml",
            to: "manifest.xml",
            transform: (content) => fillManifest(content.toString(), address, version, excel),
          },
        ],
      }),
      new ChecksPlugin(listed.map(({ id }) => id)),
    ],
  };
}
