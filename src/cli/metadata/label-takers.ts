import { existsSync, readFileSync, writeFileSync } from "node:fs";
import { join, resolve } from "node:path";
import ts from "typescript";
import { labels } from "../../functions/settings/labels";
import type { Outcome } from "./command";
import { readExportedNames } from "./sources";

/** What a declaration reads: labels of the settings, and further declarations. */
interface Reads {
  readonly labels: Set<string>;
  readonly declarations: Set<ts.Node>;
}

/**
 * Which functions read each label, from the types: a function reads what it, or anything that it refers to in its folder, takes out of the settings. Where a
 * function is handed a label's name as an argument, it is the caller that reads the label.
 */
function findTakers(folder: string): Record<string, string[]> {
  const door = resolve(folder, "index.ts");
  const program = ts.createProgram([door], { strict: true, target: ts.ScriptTarget.ES2023, ...resolution });
  const finder = new ReadsFinder(program.getTypeChecker(), resolve(folder));
  const source = program.getSourceFile(door)!;
  const exported = new Map(
    program
      .getTypeChecker()
      .getExportsOfModule(program.getTypeChecker().getSymbolAtLocation(source)!)
      .map((symbol) => [symbol.name, finder.declarationsOf(symbol)]),
  );
  const taken = new Map(Object.keys(labels).map((label) => [label, [] as string[]]));
  for (const name of readExportedNames(join(folder, "index.ts")).names)
    for (const label of finder.collect(exported.get(name) ?? [])) taken.get(label)?.push(name.toUpperCase());
  return Object.fromEntries(taken);
}

const resolution = { module: ts.ModuleKind.ESNext, moduleResolution: ts.ModuleResolutionKind.Bundler, types: [] };

class ReadsFinder {
  private readonly known = new Map<ts.Node, Reads>();

  constructor(
    private readonly checker: ts.TypeChecker,
    private readonly folder: string,
  ) {}

  /** Every label read from these declarations on. */
  collect(starts: readonly ts.Node[]): Set<string> {
    const found = new Set<string>();
    const visited = new Set<ts.Node>(starts);
    for (const declaration of visited) {
      const reads = this.readsOf(declaration);
      for (const label of reads.labels) found.add(label);
      for (const next of reads.declarations) visited.add(next);
    }
    return found;
  }

  /** The functions and variables of the folder behind a name. */
  declarationsOf(symbol: ts.Symbol): ts.Node[] {
    const real = symbol.flags & ts.SymbolFlags.Alias ? this.checker.getAliasedSymbol(symbol) : symbol;
    return (real.declarations ?? []).filter(
      (node) =>
        (ts.isFunctionDeclaration(node) || ts.isVariableDeclaration(node)) &&
        node.getSourceFile().fileName.startsWith(`${this.folder}/`),
    );
  }

  private readsOf(declaration: ts.Node): Reads {
    const known = this.known.get(declaration);
    if (known) return known;
    const reads: Reads = { labels: new Set(), declarations: new Set() };
    this.known.set(declaration, reads);
    const visit = (node: ts.Node): void => {
      if (ts.isTypeNode(node)) return;
      for (const label of this.labelsAt(node)) reads.labels.add(label);
      if (ts.isIdentifier(node)) {
        const symbol = this.checker.getSymbolAtLocation(node);
        for (const next of symbol ? this.declarationsOf(symbol) : []) reads.declarations.add(next);
      }
      ts.forEachChild(node, visit);
    };
    visit(declaration);
    return reads;
  }

  private labelsAt(node: ts.Node): readonly string[] {
    if (ts.isPropertyAccessExpression(node) && this.isSettings(node.expression)) return [node.name.text];
    if (ts.isElementAccessExpression(node) && this.isSettings(node.expression))
      return this.namesIn(node.argumentExpression);
    if (ts.isObjectBindingPattern(node) && this.isSettings(node))
      return node.elements.map(({ propertyName, name }) => (propertyName ?? name) as ts.Identifier).map(textOf);
    if (ts.isCallExpression(node)) return this.namesGiven(node);
    if (ts.isSpreadAssignment(node) && this.isSettings(node.expression)) return this.namesWanted(node.parent);
    return [];
  }

  /** Labels among the terms that an object is made for, where the settings are spread into it. */
  private namesWanted(made: ts.ObjectLiteralExpression): string[] {
    const wanted = this.checker.getContextualType(made);
    // Settings made of settings read nothing.
    if (!wanted || wanted.getProperty("monte carlo trials")) return [];
    return wanted.getProperties().flatMap(({ name }) => (Object.hasOwn(labels, name) ? [name] : []));
  }

  private isSettings(node: ts.Node): boolean {
    return this.checker.getTypeAtLocation(node).getProperty("monte carlo trials") !== undefined;
  }

  /** Labels among the arguments of a call whose parameter takes the names of labels only. */
  private namesGiven(call: ts.CallExpression): string[] {
    const parameters = this.checker.getResolvedSignature(call)?.declaration?.parameters ?? [];
    return call.arguments.flatMap((argument, index) => {
      const parameter = parameters[index];
      const takes = parameter && this.checker.getTypeAtLocation(parameter);
      const constraint = takes && (this.checker.getBaseConstraintOfType(takes) ?? takes);
      const names = constraint ? literalsOf(constraint) : [];
      return names.length > 1 && names.every((name) => Object.hasOwn(labels, name)) ? this.namesIn(argument) : [];
    });
  }

  /** What an expression may be; a parameter with a type of its own is for the caller to say, and any label at all says nothing. */
  private namesIn(expression: ts.Expression): string[] {
    const declaration = ts.isIdentifier(expression)
      ? this.checker.getSymbolAtLocation(expression)?.valueDeclaration
      : undefined;
    if (declaration && ts.isParameter(declaration) && declaration.type) return [];
    const names = literalsOf(this.checker.getTypeAtLocation(expression));
    return names.length < Object.keys(labels).length ? names : [];
  }
}

const textOf = (name: ts.PropertyName | ts.Identifier): string =>
  ts.isIdentifier(name) || ts.isStringLiteral(name) ? name.text : name.getText();

function literalsOf(type: ts.Type): string[] {
  const members = type.isUnion() ? type.types : [type];
  return members.flatMap((member) => (member.isStringLiteral() ? [member.value] : []));
}

/** Writes which functions read each label, one label a line; with `check` it writes nothing and fails if the file is out of date. */
export function runTakersCommand(folder: string, check: boolean): Outcome {
  const target = join(folder, "settings/takers.json");
  const lines = Object.entries(findTakers(folder)).map(
    ([label, ids]) => `  ${JSON.stringify(label)}: ${JSON.stringify(ids)}`,
  );
  const text = `{\n${lines.join(",\n")}\n}\n`;
  const current = existsSync(target) && readFileSync(target, "utf8") === text;
  if (check && !current) return { succeeded: false, lines: [`${target} is not current; run "npm run metadata"`] };
  if (!current) writeFileSync(target, text);
  return { succeeded: true, lines: current ? [] : [`${target} rewritten`] };
}
