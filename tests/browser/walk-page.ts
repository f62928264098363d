/** What a walk through the views of one workbook shows. */
export interface Walk {
  /** The verdicts as they are shown, with their cells. */
  readonly verdicts: readonly { readonly cell: string; readonly word: string }[];
  /** What the page says about the recalculation. */
  readonly recalculation: string;
  /** How many errors and warnings the review found, in its words; "" where the walk did not wait for it. */
  readonly findings: string;
  /** Every step from the result to something typed in, as "address, kind". */
  readonly steps: readonly string[];
  /** The cell that "Show in its sheet" marked. */
  readonly chosen: string;
  readonly readings: number;
  /** What changing an input to another value changes; "" for a workbook without inputs, or without that task. */
  readonly trial: string;
  /** What the page says about the issue copy that it made, or why there is none; "" without it. */
  /** The files on offer, in their words. */
  readonly offers: string;
  readonly issued: string;
}

/** What a walk does besides looking at each view: the review, and changing an input and making the issue copy. */
export interface Tasks {
  readonly review: boolean;
  readonly changes: boolean;
}

/**
 * Walks through every view of the workbook that the page shows, as a person would. It runs inside the page, sent there as text, so that browsers with
 * different drivers walk the same way; hence it uses nothing from outside.
 */
export async function walkPage({ review, changes }: Tasks): Promise<Walk> {
  const find = <Kind extends HTMLElement>(selector: string, words = ""): Kind | undefined =>
    [...document.querySelectorAll<Kind>(selector)].find(({ textContent }) => textContent.includes(words));
  const say = (): string => document.querySelector(".status")?.textContent ?? "";
  const until = async <Found>(what: string, look: () => Found | undefined | false): Promise<Found> => {
    for (const end = Date.now() + 120_000; Date.now() < end;) {
      const found = look();
      if (found !== undefined && found !== false) return found;
      if (say().startsWith("That did not work")) throw new Error(`${what}: ${say()}`);
      await new Promise((resolve) => setTimeout(resolve, 15));
    }
    throw new Error(`no ${what}, the page says “${say()}”`);
  };
  const press = (selector: string, words = ""): void => {
    const button = find(selector, words);
    if (!button) throw new Error(`no ${selector} ${words}`);
    button.click();
  };
  const read = (selector: string): string => document.querySelector(selector)?.textContent.trim() ?? "";
  const panel = "[role=tabpanel]";
  const chooseTab = async (name: string): Promise<void> => {
    const before = document.querySelector(`${panel} > *`);
    press(`#tab-${name}`);
    await until(name, () => say() === "" && document.querySelector(`${panel} > *`) !== before);
  };

  await chooseTab("verdict");
  const readVerdict = (verdict: Element, cell: string, word: string) => ({
    cell: verdict.querySelector(cell)?.textContent ?? "",
    word: verdict.querySelector(word)?.textContent ?? "",
  });
  // A few at length, many as a table.
  const verdicts = [
    ...[...document.querySelectorAll(".verdict")].map((one) => readVerdict(one, ".of button", ".word")),
    ...[...document.querySelectorAll(".verdicts tbody tr")].map((row) => readVerdict(row, "th button", "td button")),
  ];
  const recalculation = read(`${panel} .view > section:last-child`);

  let findings = "";
  await chooseTab("findings");
  if (review) {
    press(`${panel} button.main`);
    findings = (await until("findings", () => find(`${panel} .lead`))).textContent;
  }

  // Without a verdict a person begins at a formula that the sheet shows.
  if (verdicts.length === 0) {
    await chooseTab("sheets");
    find(`${panel} td[title*=": ="]`)?.click();
    await until("choice", () => find(".chosen button"));
    press(".chosen button");
    await until("trace", () => say() === "" && find(".step"));
  } else await chooseTab("trace");
  const steps: string[] = [];
  for (let next: HTMLElement | undefined; ; next.click()) {
    steps.push(read(".step .soft").replace(/\s*Show in its sheet$/, ""));
    next = find(".branches button");
    if (!next || steps.length > 60) break;
  }
  press(".step button", "Show in its sheet");
  const chosen = (await until("sheet", () => find("[data-chosen]"))).id.replace(/^s\d+-/, "");

  await chooseTab("graph");
  const readings = document.querySelectorAll("figure .reading").length;

  let trial = "";
  await chooseTab("trial");
  if (changes && find(".inputs button")) {
    press(".inputs button");
    const field = await until("field", () => find<HTMLInputElement | HTMLSelectElement>(".changes :is(input, select)"));
    const options = field instanceof HTMLSelectElement ? [...field.options].map(({ value }) => value) : ["7"];
    field.value = options.find((text) => text !== field.value) ?? "";
    field.dispatchEvent(new Event(field instanceof HTMLSelectElement ? "change" : "input"));
    press(`${panel} button.main`);
    trial = (await until("outcome", () => find(`${panel} [role=status] p`, "change"))).textContent;
  }

  await chooseTab("files");
  let [offers, issued] = ["", ""];
  if (changes) {
    offers = (await until("offers", () => find(".offers"))).textContent ?? "";
    press(".offers button");
    const outcome = await until("issue copy", () => find(".offers [role=status] p"));
    issued = outcome.parentElement?.textContent ?? "";
  }
  return { verdicts, recalculation, findings, steps, chosen, readings, trial, offers, issued };
}
