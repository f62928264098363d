import type { ViewContext } from "./context";
import { element } from "./elements";

/** An address to click. A finding may name something else than a cell, such as a defined name; that stays text. */
export function cellButton({ showTrace }: ViewContext, address: string): HTMLElement | string {
  if (!/![A-Z]+\d+(:[A-Z]+\d+)?$/i.test(address)) return address;
  return element("button", { type: "button", class: "cell", onclick: () => showTrace(address) }, address);
}
