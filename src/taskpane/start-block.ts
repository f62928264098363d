import { element, listTable } from "../views/elements";
import type { SettingEntry } from "./entries";
import {
  createAction,
  createChoice,
  createPlaceField,
  describeWritten,
  findInTheWay,
  type FormTools,
} from "./form-parts";
import { formatSelected } from "./port/addresses";
import type { SelectedArea } from "./port/port";
import { composeTestBlock, type TestBlock, usualTerms } from "./test-block";

const aboutLooks =
  "Cells to type into and results get their colours and number formats. A column is widened only if the sheet has nothing else in it; rows stay as they are.";

/** Puts the smallest test into the firm's own sheet, after the person has seen which cells it takes. */
export function createStartBlock(tools: FormTools & { readonly settings: readonly SettingEntry[] }): HTMLElement {
  const { session, say, settings } = tools;
  const shown = element("div", { class: "result" });
  const choicesOf = (wanted: string) => settings.find(({ label }) => label === wanted)?.choices ?? [];
  const forget = (): void => shown.replaceChildren();
  const systems = createChoice(
    [
      { word: "SI", meaning: "m³/h, m³, °C" },
      { word: "IP", meaning: "cfm, ft³, °F" },
    ],
    { id: "block-units", onchange: forget },
  );
  const standards = createChoice(choicesOf("standard"), { id: "block-standard", onchange: forget });
  const bases = createChoice(choicesOf("flow basis"), { id: "block-flow-basis", onchange: forget });
  const place = createPlaceField(tools, forget);
  const { canDraw } = session.port.abilities;
  const graph = element("input", { type: "checkbox", id: "block-graph", checked: canDraw, onchange: forget });

  const show = async (): Promise<void> => {
    const at = place.require();
    const terms = {
      standard: standards.value || usualTerms.standard,
      flowBasis: bases.value || usualTerms.flowBasis,
    };
    const block = composeTestBlock(systems.value === "IP" ? "IP" : "SI", at, terms, canDraw && graph.checked);
    forget();
    const taken = await findInTheWay(tools, at, block.reach);
    if (taken) throw new Error(`Nothing can be written: ${taken} already holds something. Pick another place.`);
    const rows = block.parts.map(({ name, area, filledBy }) => [name, area, filledBy]);
    shown.replaceChildren(
      listTable(formatSelected({ ...at, ...block.reach }), ["part", "cells", "filled by"], rows),
      ...(canDraw ? [element("p", { class: "soft" }, aboutLooks)] : []),
      createAction(tools, "Write these cells", () => write(at, block)),
    );
  };
  const write = async (at: SelectedArea, { cells, reach: room, looks }: TestBlock): Promise<void> => {
    const { sheet, row, column } = at;
    await session.port.write({ sheet, row, column, cells, reach: room, ...(canDraw && { looks }) });
    forget();
    say(describeWritten(tools, at, room, canDraw));
  };

  return element(
    "form",
    { class: "start-form", "aria-label": "Test block", onsubmit: (event) => event.preventDefault() },
    element("p", {}, element("label", { for: systems.id }, "Units"), " ", systems),
    element("p", {}, element("label", { for: standards.id }, "Standard"), " ", standards),
    element("p", {}, element("label", { for: bases.id }, "Flows are"), " ", bases),
    canDraw && element("p", {}, element("label", {}, graph, " With the air leakage graph, which follows the readings")),
    place.element,
    element("p", { class: "actions" }, createAction(tools, "Show the cells", show)),
    shown,
  );
}
