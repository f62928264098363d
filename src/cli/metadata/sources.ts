import { existsSync, readdirSync, readFileSync } from "node:fs";
import { dirname, join } from "node:path";
import ts from "typescript";

/** The TypeScript files of a folder and of those in it, always in the same order. */
export function listSourceFiles(folder: string): string[] {
  return readdirSync(folder, { recursive: true, encoding: "utf8" })
    .filter((file) => file.endsWith(".ts") && !file.endsWith(".d.ts"))
    .sort()
    .map((file) => join(folder, file));
}

/** Names that a door file passes on, read as syntax; forms that hide names from a reader are problems. */
export function readExportedNames(door: string): { names: string[]; problems: string[] } {
  const source = ts.createSourceFile(door, readFileSync(door, "utf8"), ts.ScriptTarget.Latest, true);
  const names: string[] = [];
  const problems: string[] = [];
  for (const statement of source.statements) {
    if (ts.isExportDeclaration(statement)) {
      if (statement.isTypeOnly) continue;
      if (!statement.exportClause || !ts.isNamedExports(statement.exportClause)) {
        problems.push(`${door}: "${statement.getText()}" does not name what it exports`);
        continue;
      }
      for (const element of statement.exportClause.elements) if (!element.isTypeOnly) names.push(element.name.text);
      problems.push(...findMissingTarget(door, statement));
    } else if (!ts.isImportDeclaration(statement)) {
      problems.push(`${door}: holds more than a list of names: "${statement.getText().slice(0, 60)}"`);
    }
  }
  return { names, problems };
}

function findMissingTarget(door: string, statement: ts.ExportDeclaration): string[] {
  if (!statement.moduleSpecifier || !ts.isStringLiteral(statement.moduleSpecifier)) return [];
  const target = join(dirname(door), `${statement.moduleSpecifier.text}.ts`);
  return existsSync(target)
    ? []
    : [`${door}: passes on names from ${statement.moduleSpecifier.text}.ts, which is not there`];
}

/** One source file's custom functions, read as syntax: exactly what the metadata generator sees. */
interface SourceReading {
  /** Names of top-level functions that carry `@customfunction`. */
  readonly declared: readonly string[];
  /** One sentence for each thing the generator would silently drop or change. */
  readonly problems: readonly string[];
}

const tagName = "customfunction";

/** Reads the custom functions of one file and reports where the generator would silently misread them. */
export function readSource(file: string, text: string): SourceReading {
  const source = ts.createSourceFile(file, text, ts.ScriptTarget.Latest, true);
  const declared: string[] = [];
  const problems: string[] = [];

  const visit = (node: ts.Node): void => {
    if (carriesTag(node)) {
      if (ts.isFunctionDeclaration(node) && node.parent === source && node.name) {
        declared.push(node.name.text);
        problems.push(...checkFunction(node, node.name.text));
      } else {
        problems.push(`${file}: @${tagName} is on something other than a top-level function; the generator skips it`);
      }
    }
    ts.forEachChild(node, visit);
  };
  visit(source);
  return { declared, problems };
}

/** All comment blocks of a node. TypeScript's public reading gives only the last of several, and the trap is in the first. */
function readDocBlocks(node: ts.Node): readonly ts.JSDoc[] {
  return (node as { jsDoc?: ts.JSDoc[] }).jsDoc ?? [];
}

function carriesTag(node: ts.Node): boolean {
  return readDocBlocks(node).some((block) => block.tags?.some((tag) => tag.tagName.text.toLowerCase() === tagName));
}

function checkFunction(node: ts.FunctionDeclaration, name: string): string[] {
  const problems: string[] = [];
  const blocks = readDocBlocks(node);
  if (blocks.length > 1) problems.push(`${name}: has two comment blocks; the generator reads only the first`);
  if (blocks.some((block) => block.getText().includes("{@link")))
    problems.push(`${name}: {@link} in a comment makes the generator fail`);
  if (!node.modifiers?.some((modifier) => modifier.kind === ts.SyntaxKind.ExportKeyword))
    problems.push(`${name}: is not exported from its file`);
  problems.push(...checkResult(node, name));
  for (const parameter of node.parameters) problems.push(...checkParameter(parameter, name));
  return problems;
}

function checkResult(node: ts.FunctionDeclaration, name: string): string[] {
  if (!node.type) return [`${name}: has no declared result`];
  return checkArray(node.type, `${name}: the result`);
}

function checkParameter(parameter: ts.ParameterDeclaration, functionName: string): string[] {
  const what = `${functionName}: parameter ${parameter.name.getText()}`;
  if (parameter.dotDotDotToken) return [`${what} is a rest parameter; write T[][][]`];
  if (parameter.initializer)
    return [`${what} has a default value, which never applies: an omitted argument arrives as null`];
  if (!parameter.type) return [`${what} has no declared type`];
  const commented = ts.getJSDocType(parameter);
  if (commented && commented.kind !== parameter.type.kind)
    return [
      `${what} is {${commented.getText()}} in the comment but ${parameter.type.getText()} in the code; leave it out of the comment`,
    ];
  const problems = checkArray(parameter.type, what);
  if (problems.length === 0 && parameter.questionToken && !admitsNull(parameter.type))
    problems.push(`${what} is optional and arrives as null when omitted; write T | null`);
  return problems;
}

/** The generator silently turns a one-dimensional array, or an array inside a union, into a single cell. */
function checkArray(type: ts.TypeNode, what: string): string[] {
  if (ts.isUnionTypeNode(type)) {
    return type.types.some((member) => measureArrayDepth(member) > 0)
      ? [`${what} is a union with an array, which silently becomes a single cell; write any[][]`]
      : [];
  }
  const depth = measureArrayDepth(type);
  return depth === 1 || depth > 3 ? [`${what} is an array of ${depth} dimension(s), not a range; write any[][]`] : [];
}

function measureArrayDepth(type: ts.TypeNode): number {
  if (ts.isParenthesizedTypeNode(type)) return measureArrayDepth(type.type);
  if (ts.isArrayTypeNode(type)) return 1 + measureArrayDepth(type.elementType);
  if (ts.isTypeReferenceNode(type)) {
    const inner = type.typeArguments?.[0];
    const outer = type.typeName.getText();
    if (inner && (outer === "Array" || outer === "ReadonlyArray")) return 1 + measureArrayDepth(inner);
    if (inner && outer === "Promise") return measureArrayDepth(inner);
  }
  return 0;
}

function admitsNull(type: ts.TypeNode): boolean {
  if (measureArrayDepth(type) > 0) return true;
  if (type.kind === ts.SyntaxKind.AnyKeyword || type.kind === ts.SyntaxKind.UnknownKeyword) return true;
  return ts.isUnionTypeNode(type) && type.types.some((member) => member.getText() === "null");
}
