import { element, listTable } from "../views/elements";
import { formulaText, readNumber } from "./call-text";
import type { FunctionEntry, SettingEntry, Units } from "./entries";
import {
  createAction,
  createChoice,
  createPlaceField,
  describeWritten,
  findInTheWay,
  type FormTools,
} from "./form-parts";
import { formatSelected } from "./port/addresses";
import { findByWords } from "./search-words";

export interface SettingsTools extends FormTools {
  readonly functions: readonly FunctionEntry[];
  readonly settings: readonly SettingEntry[];
}

/** A label with what was typed for it. */
export interface FilledSetting {
  readonly setting: SettingEntry;
  readonly text: string;
}

type Row = readonly [label: string, value: string | number];

/** A value as the functions take it: a number where there is one, also for a day or a share in percent. */
function readSettingValue({ text, setting }: FilledSetting): string | number {
  const typed = text.trim();
  if (setting.choices.some(({ word }) => word === typed)) return typed;
  const day = /^(\d{4})-(\d\d)-(\d\d)$/.exec(typed);
  if (setting.unit.SI === "date" && day) return Date.parse(typed) / 86_400_000 + 25_569;
  return readNumber(typed) ?? typed;
}

/** The rows of the block, values as the functions take them; the units first, where they are not what is assumed. */
export function listSettings(filled: readonly FilledSetting[], units: Units): readonly Row[] {
  const given = filled.filter(({ text }) => text.trim() !== "");
  const rows = given.map((one): Row => [one.setting.label, readSettingValue(one)]);
  return units === "SI" || rows.some(([label]) => label === "units") ? rows : [["units", units], ...rows];
}

/** The cells of the block: a day is entered as one, so that the cell shows it so in every language. */
export function composeSettingsCells(filled: readonly FilledSetting[], units: Units): (string | number)[][] {
  const days = new Set(filled.filter(({ setting }) => setting.unit.SI === "date").map(({ setting }) => setting.label));
  return listSettings(filled, units).map(([label, value]) => [
    label,
    days.has(label) && typeof value === "number" ? composeDay(value) : value,
  ]);
}

function composeDay(day: number): string {
  const date = new Date((day - 25_569) * 86_400_000);
  return `=DATE(${date.getUTCFullYear()},${date.getUTCMonth() + 1},${date.getUTCDate()})`;
}

/** Labels whose values must fit the readings, such as a letter for each; the checks have other readings. A list has a value for each opening. */
const fitsReadings = ({ setting, text }: FilledSetting): boolean =>
  ["columns", "openings", "opening names", "pressure sign"].includes(setting.label) || text.includes(";");

/**
 * Calls that take the labels, each with its example's other arguments and settings: what such a call refuses and names by a label is wrong with the
 * block. Labels that no function reads are checked as far as their name goes; those that must fit the readings are not checked.
 */
export function composeChecks(
  functions: readonly FunctionEntry[],
  filled: readonly FilledSetting[],
  units: Units,
): readonly string[] {
  const checked = filled.filter((one) => !fitsReadings(one));
  const rows = listSettings(checked, units);
  const left = new Set(checked.map(({ setting }) => setting.label));
  return functions.flatMap((entry) => {
    const at = entry.arguments.findIndex(({ name }) => name === "settings");
    const read = checked.filter(({ setting }) => left.has(setting.label) && setting.functions.includes(entry.id));
    if (at < 0 || read.length === 0) return [];
    for (const { setting } of read) left.delete(setting.label);
    const own = entry.example[at];
    const others = Array.isArray(own) ? (own as Row[]).filter(([label]) => !rows.some((row) => row[0] === label)) : [];
    const given = entry.arguments.map((_, index) =>
      index === at ? [...rows, ...others] : (entry.example[index] ?? null),
    );
    return [formulaText(entry.id, given.slice(0, Math.max(at + 1, entry.example.length)))];
  });
}

/** True where a function refuses the value of one of the labels. What it lacks, #N/A, may come from elsewhere. */
export const refusesLabel = (problem: string, filled: readonly FilledSetting[]): boolean =>
  problem.startsWith("#VALUE!") && filled.some(({ setting }) => problem.includes(setting.label));

/** Builds the two columns of a settings block: labels found by the trade's words, values checked, nothing overwritten. */
export function createSettingsBuilder(tools: SettingsTools): HTMLElement {
  const { session, say, functions } = tools;
  const chosen = new Map<
    string,
    { readonly setting: SettingEntry; readonly input: HTMLInputElement | HTMLSelectElement }
  >();
  const list = element("div", { class: "chosen" });
  const block = element("div", { class: "result" });
  const found = element("ul", { class: "labels-found", "aria-label": "Labels found" });
  const systems = createChoice([{ word: "SI" }, { word: "IP" }], { id: "settings-units", onchange: () => show() });
  const readUnits = (): Units => (systems.value === "IP" ? "IP" : "SI");
  const readFilled = (): FilledSetting[] =>
    [...chosen.values()].map(({ setting, input }) => ({ setting, text: input.value }));
  const search = element("input", {
    id: "settings-search",
    type: "search",
    autocomplete: "off",
    spellcheck: "false",
    oninput: () => showFound(),
  });
  const groups = createChoice(
    [...new Set(tools.settings.map(({ group }) => group))].map((word) => ({ word })),
    { id: "settings-group", onchange: () => showFound() },
    "all groups",
  );

  const showFound = (): void => {
    const wanted = search.value.trim() !== "" || groups.value !== "";
    const inGroup = tools.settings.filter(({ group }) => groups.value === "" || group === groups.value);
    const findable = inGroup.map((setting) => ({ setting, name: setting.label, text: describeSetting(setting) }));
    const rows = wanted ? findByWords(search.value, findable) : [];
    found.replaceChildren(
      ...rows.map(({ setting }) => {
        const { label, means } = setting;
        return element(
          "li",
          {},
          element("button", { type: "button", onclick: () => add(setting) }, label),
          ` ${means}`,
        );
      }),
      ...(wanted && rows.length === 0 ? [element("li", {}, "No label has all of these words.")] : []),
    );
  };
  const add = (setting: SettingEntry): void => {
    if (!chosen.has(setting.label)) chosen.set(setting.label, { setting, input: createInput(setting, showBlock) });
    show();
    chosen.get(setting.label)?.input.focus();
  };
  const show = (): void => {
    list.replaceChildren(
      ...[...chosen.values()].map(({ setting, input }) =>
        element(
          "div",
          { class: "field" },
          element("label", { for: input.id }, element("code", {}, setting.label)),
          input,
          ` ${setting.choices.length > 0 ? "" : setting.unit[readUnits()]} `,
          element(
            "button",
            { type: "button", "aria-label": `Remove ${setting.label}`, onclick: () => remove(setting) },
            "Remove",
          ),
          element("small", {}, `${setting.means}; for example ${setting.example[readUnits()]}`),
        ),
      ),
    );
    showBlock();
  };
  const remove = (setting: SettingEntry): void => {
    chosen.delete(setting.label);
    show();
  };
  const showBlock = (): void => {
    const rows = composeSettingsCells(readFilled(), readUnits());
    const at = place.find();
    const where = at ? formatSelected({ ...at, rows: Math.max(1, rows.length), columns: 2 }) : "the block";
    block.replaceChildren(
      rows.length > 0
        ? listTable(
            where,
            ["label", "value"],
            rows.map((row) => row.map(String)),
          )
        : "",
    );
  };
  const place = createPlaceField(tools, showBlock);

  const check = async (): Promise<void> => {
    const filled = readFilled().filter(({ text }) => text.trim() !== "");
    if (filled.length === 0) throw new Error("Choose a label and type its value first.");
    for (const formula of composeChecks(functions, filled, readUnits())) {
      const { problem } = await session.preview(place.require(), formula);
      if (refusesLabel(problem, filled)) throw new Error(problem);
    }
  };
  const insert = async (): Promise<void> => {
    await check();
    const at = place.require();
    const cells = composeSettingsCells(readFilled(), readUnits());
    const reach = { rows: cells.length, columns: 2 };
    const taken = await findInTheWay(tools, at, reach);
    if (taken) throw new Error(`Nothing was written: ${taken} already holds something. Pick another place.`);
    await session.port.write({ sheet: at.sheet, row: at.row, column: at.column, cells, reach });
    say(describeWritten(tools, at, reach));
  };
  const checkAndSay = async (): Promise<void> => {
    await check();
    say("The functions accept these values.");
  };

  return element(
    "form",
    { class: "settings-form", "aria-label": "Settings block", onsubmit: (event) => event.preventDefault() },
    element("p", {}, element("label", { for: systems.id }, "Units"), " ", systems),
    element("p", {}, element("label", { for: search.id }, "Find a label"), " ", search),
    element("p", {}, element("label", { for: groups.id }, "Group"), " ", groups),
    found,
    list,
    place.element,
    block,
    element(
      "p",
      { class: "actions" },
      createAction(tools, "Check", checkAndSay),
      " ",
      createAction(tools, "Insert", insert),
    ),
  );
}

const describeSetting = ({ group, means, choices }: SettingEntry): string =>
  [group, means, ...choices.map(({ word }) => word)].join(" ");

function createInput({ label, choices, unit }: SettingEntry, update: () => void): HTMLInputElement | HTMLSelectElement {
  const id = `setting-${label.replaceAll(" ", "-")}`;
  if (choices.length > 0) return createChoice(choices, { id, onchange: update }, "choose…");
  const type = unit.SI === "date" ? "date" : "text";
  return element("input", { id, type, autocomplete: "off", spellcheck: "false", oninput: update });
}
