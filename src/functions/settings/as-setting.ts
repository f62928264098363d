import { MethodError } from "../../core/index";

/** The method names arguments as a function's parameters do; a setting is shown as the label that the tester typed, unless it is an argument of its own. */
export function asSetting(error: unknown, ownArguments: readonly string[] = []): unknown {
  if (!(error instanceof MethodError) || ownArguments.includes(error.argument)) return error;
  const name = error.argument.replaceAll("_", " ");
  const isSetting =
    /temperature|humidity|barometric|density|confidence|altitude|time of baseline|(pressure|flow) uncertainty/.test(
      name,
    );
  return isSetting ? new MethodError(error.kind, "settings", `${name}: ${error.rule}`) : error;
}
