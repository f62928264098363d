import { existsSync, readFileSync } from "node:fs";
import { dirname, join } from "node:path";
import ts from "typescript";

/** Names that a door file passes on, read as syntax; forms that hide names from a reader are problems. */
export function exportedNames(door: string): { names: string[]; problems: string[] } {
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
      problems.push(...missingTarget(door, statement));
    } else if (!ts.isImportDeclaration(statement)) {
      problems.push(`${door}: holds more than a list of names: "${statement.getText().slice(0, 60)}"`);
    }
  }
  return { names, problems };
}

function missingTarget(door: string, statement: ts.ExportDeclaration): string[] {
  if (!statement.moduleSpecifier || !ts.isStringLiteral(statement.moduleSpecifier)) return [];
  const target = join(dirname(door), `${statement.moduleSpecifier.text}.ts`);
  return existsSync(target)
    ? []
    : [`${door}: passes on names from ${statement.moduleSpecifier.text}.ts, which is not there`];
}
