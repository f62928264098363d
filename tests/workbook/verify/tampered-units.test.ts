import { readFileSync } from "node:fs";
import { describe } from "vitest";
import { expectFound } from "./expect-found";
import { units } from "./tamperings/units";

const building = new Uint8Array(readFileSync(new URL("../../../sample-workbooks/multi-unit.xlsx", import.meta.url)));

describe("between the runs of the units and the verdict of a building", () => expectFound(units, building));
