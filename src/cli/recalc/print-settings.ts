import { findSettings, inEachSystem, type Setting, settingsReference } from "../../functions/settings/reference";
import { nearest } from "../../functions/cells/text";
import { shorten } from "../../workbook/index";
import { BadArgument } from "../shared/parse-options";
import { alignColumns, indentLines } from "../shared/report-lines";

/** The settings in which the words occur, all of them without words or for "?", as lines of text; throws BadArgument where there are none. */
export function writeSettings(words: string): string[] {
  const found = findSettings(words.replaceAll("?", ""));
  if (found.length === 0) {
    const like = nearest(
      words.toLowerCase(),
      settingsReference.map(({ label }) => label),
    );
    const hint = like.length === 0 ? "" : `; did you mean ${like.map((label) => `"${label}"`).join(" or ")}?`;
    throw new BadArgument(`no setting has the words "${shorten(words)}"${hint}`);
  }
  return found.flatMap((setting, index) => [
    ...(found[index - 1]?.group === setting.group ? [] : [setting.group]),
    ...indentLines(writeSetting(setting)),
  ]);
}

function writeSetting(setting: Setting): string[] {
  const { label, means, unit, ifBlank, example, words, zeroIsValue, functions, isRecord } = setting;
  const facts = [
    ["unit", zeroIsValue ? `${inEachSystem(unit)}, 0 is a value` : inEachSystem(unit)],
    ["if blank", inEachSystem(ifBlank)],
    ["example", inEachSystem(example)],
    ["read by", isRecord ? "no function: it is for the record" : functions.join(", ")],
  ];
  const explained = words.flatMap(({ word, meaning }) => (meaning === undefined ? [] : [[`"${word}"`, meaning]]));
  return [`${label}: ${means}`, ...indentLines([...alignColumns(facts), ...indentLines(alignColumns(explained))])];
}
