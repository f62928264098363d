/** Reads the value beside a label; where it breaks a rule, `refuse` is told which. */
export type Reader<Value> = (value: unknown, refuse: (rule: string) => never) => Value;

export const number: Reader<number> = (value, refuse) =>
  typeof value === "number" && Number.isFinite(value) ? value : refuse("a number is needed");

function checked(reader: Reader<number>, holds: (value: number) => boolean, rule: string): Reader<number> {
  return (value, refuse) => {
    const read = reader(value, refuse);
    return holds(read) ? read : refuse(rule);
  };
}

export const positive = checked(number, (value) => value > 0, "must be above 0");

export function atLeast(lowest: number, rule: string, reader = number): Reader<number> {
  return checked(reader, (value) => value >= lowest, rule);
}

export function atMost(highest: number, rule: string, reader = number): Reader<number> {
  return checked(reader, (value) => value <= highest, rule);
}

export function between(lowest: number, highest: number, rule: string): Reader<number> {
  return atMost(highest, rule, atLeast(lowest, rule));
}

export function text(rule: string): Reader<string> {
  return (value, refuse) => (typeof value === "string" ? value : refuse(rule));
}

/** One word of a list, in any letter case. */
export function oneOf<const Word extends string>(words: readonly Word[]): Reader<Word> {
  return (value, refuse) => {
    const given = typeof value === "string" ? value.trim().toLowerCase() : undefined;
    return words.find((word) => word.toLowerCase() === given) ?? refuse(`is one of: ${words.join(", ")}`);
  };
}

/** A number by its own rule, or one word. */
export function numberOr<const Word extends string>(reader: Reader<number>, word: Word): Reader<number | Word> {
  return (value, refuse) =>
    typeof value === "string"
      ? value.trim().toLowerCase() === word
        ? word
        : refuse(`a number is needed, or the word "${word}"`)
      : reader(value, refuse);
}

/** One number above 0, or several in a text with ; between them; a cell that Excel joined from numbers may have decimal commas. */
export const positiveList: Reader<readonly number[]> = (value, refuse) => {
  if (typeof value !== "string") return [positive(value, refuse)];
  const parts = value.split(";").map((part) => Number(part.trim() === "" ? NaN : part.replace(",", ".")));
  return parts.every((part) => part > 0 && part < Infinity)
    ? parts
    : refuse("numbers above 0 are needed, with ; between them");
};

const yesOrNo = oneOf(["yes", "no"]);

/** The words or a logical value. */
export const yesNo: Reader<"yes" | "no"> = (value, refuse) =>
  yesOrNo(typeof value === "boolean" ? (value ? "yes" : "no") : value, refuse);
