import { readdirSync, readFileSync } from "node:fs";
import { join } from "node:path";
import { runInNewContext } from "node:vm";
import ts from "typescript";
import { expect, test } from "vitest";
import * as core from "../../src/core";

// Docstrings of core show calls with their results, "Example: call → result": numbers rounded to the digits shown, "…" for what is left out.

const folder = "src/core";

interface Example {
  /** File and line. */
  readonly place: string;
  readonly call: string;
  readonly result: string;
}

/** The examples of one file; they may run over several lines up to the arrow. Throws where the word is not followed by a call of the documented function and a result. */
function readExamples(file: string): Example[] {
  const text = readFileSync(file, "utf8");
  return [...text.matchAll(/Example:/g)].map(({ index }) => {
    const place = `${file}:${text.slice(0, index).split("\n").length}`;
    const below = text.slice(index);
    const documented = /^export function (\w+)/m.exec(below)?.[1];
    const [, written = "", result = ""] = /^Example: ([^→]+) → (.+)\n/.exec(below) ?? [];
    const call = written.replace(/\n \* +/g, " ").trim();
    if (!call.startsWith(`${documented}(`) || call.includes("*/")) {
      throw new Error(`${place}: no call of the function below, an arrow and a result`);
    }
    return { place, call, result };
  });
}

const examples = readdirSync(folder, { recursive: true, encoding: "utf8" })
  .filter((name) => name.endsWith(".ts"))
  .sort()
  .flatMap((name) => readExamples(join(folder, name)));

/** A number as a result shows it. */
class Shown {
  constructor(readonly digits: string) {}

  /** Within half a unit of the last digit; a little more, since a tie may be binary. */
  isRoundingOf(value: number): boolean {
    const [significand, power = "0"] = this.digits.split("e") as [string, string?];
    const decimals = significand.split(".")[1]?.length ?? 0;
    return Math.abs(value - Number(this.digits)) <= 0.500001 * 10 ** (Number(power) - decimals);
  }
}

/** Stands for "…", in a list as well as among the fields of an object. */
const more = Symbol("more");

function readResult(result: string): unknown {
  const code = result.replace(/"[^"]*"|(?<![\w.])-?\d+(?:\.\d+)?(?:e-?\d+)?|…/g, (token) => {
    if (token === "…") return "more";
    return token.startsWith('"') ? token : `new Shown("${token}")`;
  });
  return runInNewContext(`(${code})`, { more, Shown });
}

function agrees(value: unknown, shown: unknown): boolean {
  if (shown instanceof Shown) return typeof value === "number" && shown.isRoundingOf(value);
  if (typeof shown !== "object" || typeof value !== "object" || shown === null || value === null) {
    return value === shown;
  }
  const parts = Object.entries(shown);
  const compared = parts.filter(([, part]) => part !== more);
  return (
    Array.isArray(value) === Array.isArray(shown) &&
    (compared.length < parts.length || Object.keys(value).length === compared.length) &&
    compared.every(([name, part]) => agrees((value as Record<string, unknown>)[name], part))
  );
}

test("most public functions have one", () => {
  expect(examples.length).toBeGreaterThanOrEqual(73);
});

test.each(examples.map((example) => [example.place, example] as const))("%s", (place, { call, result }) => {
  let value: unknown;
  let shown: unknown;
  try {
    value = runInNewContext(`(${call})`, { ...core });
    shown = readResult(result);
  } catch (cause) {
    throw new Error(`${place}: cannot evaluate ${call} → ${result}`, { cause });
  }
  expect(agrees(value, shown), `${place}: ${call} is ${JSON.stringify(value)}, not ${result}`).toBe(true);
});

test("each keeps to the types, so that a label that does not exist is not taken for one that is not given", () => {
  const file = join(folder, "all-docstring-examples.ts");
  const lines = [
    `import { ${Object.keys(core).join(", ")} } from "./index"; export default [`,
    ...examples.map(({ call }) => `() => (${call}),`),
    "];",
  ];
  const source = ts.createSourceFile(file, lines.join("\n"), ts.ScriptTarget.ES2022);
  const { config } = ts.readConfigFile(join(folder, "tsconfig.json"), (path) => ts.sys.readFile(path)) as {
    config: object;
  };
  const { options } = ts.parseJsonConfigFileContent(config, ts.sys, folder);
  const host = ts.createCompilerHost(options);
  const fromDisk = host.getSourceFile.bind(host);
  host.getSourceFile = (path, ...others) => (path === file ? source : fromDisk(path, ...others));
  const program = ts.createProgram([file], { ...options, noUnusedLocals: false }, host);
  const faults = program.getSemanticDiagnostics(source).map(({ start, messageText }) => {
    const { line } = source.getLineAndCharacterOfPosition(start ?? 0);
    return `${examples[line - 1]?.place}: ${ts.flattenDiagnosticMessageText(messageText, "\n")}`;
  });
  expect(faults).toEqual([]);
});
