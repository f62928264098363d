import type { AllRules } from "../cells/rule-codes";

/** The rules of labels. */
type SettingRule =
  | { [Code in keyof AllRules]: undefined extends AllRules[Code] ? Code : never }[keyof AllRules]
  | "exponent"
  | "notOneOf"
  | "numberNeeded"
  | "wordsNeeded"
  | "numberOrWord";

/** Refuses a value by the rule that it breaks. */
type Refuse = (code: SettingRule, data?: object) => never;

/** Reads the value beside a label; if it breaks a rule, `refuse` gets the rule. */
export type Reader<Value> = (value: unknown, refuse: Refuse) => Value;

export const number: Reader<number> = (value, refuse) =>
  typeof value === "number" && Number.isFinite(value) ? value : refuse("numberNeeded", { given: value });

function checked(reader: Reader<number>, holds: (value: number) => boolean, rule: SettingRule): Reader<number> {
  return (value, refuse) => {
    const read = reader(value, refuse);
    return holds(read) ? read : refuse(rule);
  };
}

export const positive = checked(number, (value) => value > 0, "aboveZero");

export function atLeast(lowest: number, rule: SettingRule, reader = number): Reader<number> {
  return checked(reader, (value) => value >= lowest, rule);
}

export function atMost(highest: number, rule: SettingRule, reader = number): Reader<number> {
  return checked(reader, (value) => value <= highest, rule);
}

export function between(lowest: number, highest: number, rule: SettingRule): Reader<number> {
  return atMost(highest, rule, atLeast(lowest, rule));
}

/** Words of any form. */
export const text: Reader<string> = (value, refuse) =>
  typeof value === "string" ? value : refuse("wordsNeeded", { given: value });

/** One word of a list, in any letter case. */
export function oneOf<const Word extends string>(words: readonly Word[]): Reader<Word> {
  return (value, refuse) => {
    const given = typeof value === "string" ? value.trim().toLowerCase() : undefined;
    return words.find((word) => word.toLowerCase() === given) ?? refuse("notOneOf", { given: value, words });
  };
}

/** A number by its own rule, or one word. */
export function numberOr<const Word extends string>(reader: Reader<number>, word: Word): Reader<number | Word> {
  return (value, refuse) =>
    typeof value === "string"
      ? value.trim().toLowerCase() === word
        ? word
        : refuse("numberOrWord", { word, got: value })
      : reader(value, refuse);
}

/** One number, or several above 0 in a text with ; between them; a cell that Excel joined from numbers may have decimal commas. A blank part counts as 0. */
export function listOf(reader: Reader<number>): Reader<readonly number[]> {
  return (value, refuse) => {
    if (typeof value !== "string") return [reader(value, refuse)];
    const parts = value.split(";").map((part) => Number(part.replace(",", ".")));
    return parts.every((part) => part > 0 && part < Infinity)
      ? parts.map((part) => reader(part, refuse))
      : refuse("numberList");
  };
}

/** Names with ; between them, each a text or a number; "?" asks what is taken. */
export const names: Reader<readonly string[]> = (value, refuse) =>
  value === "?"
    ? refuse("letters")
    : typeof value === "string" || typeof value === "number"
      ? String(value)
          .split(";")
          .map((name) => name.trim())
      : refuse("wordsNeeded", { given: value });

const yesOrNo = oneOf(["yes", "no"]);

/** The words or a logical value. */
export const yesNo: Reader<"yes" | "no"> = (value, refuse) =>
  yesOrNo(typeof value === "boolean" ? (value ? "yes" : "no") : value, refuse);
