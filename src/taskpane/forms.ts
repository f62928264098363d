import { element } from "../views/elements";
import { type FunctionEntry, readFunctions, readSettings, type SettingEntry } from "./entries";
import type { FormTools } from "./form-parts";
import { createFunctionForm } from "./function-form";
import type { Session } from "./session";
import { createSettingsBuilder } from "./settings-builder";

/** What the forms for functions and settings need, with the lists that the page holds. */
export interface Forms extends FormTools {
  readonly functions: readonly FunctionEntry[];
  readonly settings: readonly SettingEntry[];
}

export function readForms(page: Document, session: Session, say: FormTools["say"]): Forms {
  const read = (id: string): string => page.getElementById(id)?.textContent ?? "";
  return {
    session,
    say,
    functions: readFunctions(read("function-list")),
    settings: readSettings(read("setting-list")),
  };
}

/** Gives each function of the list its form when it is opened, and the settings their builder. */
export function mountForms(list: HTMLElement, forms: Forms): void {
  const known = new Map(forms.functions.map((entry) => [entry.id, entry]));
  for (const entry of list.querySelectorAll<HTMLDetailsElement>("details.function")) {
    const fill = (): void => {
      const of = known.get(entry.id);
      const details = entry.querySelector(".details");
      if (!entry.open || !of || !details || details.querySelector(".function-form")) return;
      details.prepend(createFunctionForm(of, forms));
    };
    entry.addEventListener("toggle", fill);
    fill();
  }
  const builder = element(
    "details",
    { class: "labels builder" },
    element("summary", {}, "Put a block of settings into the sheet"),
  );
  builder.addEventListener("toggle", () => {
    if (builder.open && builder.children.length === 1)
      builder.append(element("div", { class: "details" }, createSettingsBuilder(forms)));
  });
  list.querySelector("section.settings > p")?.after(builder);
}
