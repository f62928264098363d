import { element } from "./elements";

export interface Tab<Name extends string> {
  readonly name: Name;
  readonly title: string;
}

/** Tabs of which one shows its panel: arrows, Home and End move between them. */
export class Tabs<Name extends string> {
  readonly list: HTMLElement;
  readonly panel = element("div", { role: "tabpanel", tabindex: 0, id: "panel" });
  private readonly buttons: ReadonlyMap<Name, HTMLButtonElement>;

  constructor(
    label: string,
    tabs: readonly Tab<Name>[],
    private readonly show: (name: Name) => void,
  ) {
    this.buttons = new Map(
      tabs.map(({ name, title }) => [
        name,
        element(
          "button",
          {
            type: "button",
            role: "tab",
            id: `tab-${name}`,
            "aria-controls": "panel",
            onclick: () => this.choose(name),
          },
          title,
        ),
      ]),
    );
    this.list = element(
      "div",
      { role: "tablist", "aria-label": label, onkeydown: (event) => this.move(event) },
      ...this.buttons.values(),
    );
  }

  choose(name: Name): void {
    this.mark(name);
    this.show(name);
  }

  /** Marks a tab as chosen without showing it anew. */
  mark(name: Name): void {
    for (const [other, button] of this.buttons) {
      button.setAttribute("aria-selected", String(other === name));
      button.tabIndex = other === name ? 0 : -1;
    }
    this.panel.setAttribute("aria-labelledby", `tab-${name}`);
  }

  private move(event: Event): void {
    const { key } = event as KeyboardEvent;
    const buttons = [...this.buttons.values()];
    const at = buttons.findIndex((button) => button === document.activeElement);
    const next = { ArrowRight: at + 1, ArrowLeft: at - 1, Home: 0, End: buttons.length - 1 }[key];
    if (next === undefined || at < 0) return;
    event.preventDefault();
    const button = buttons[(next + buttons.length) % buttons.length];
    button?.focus();
    button?.click();
  }
}
