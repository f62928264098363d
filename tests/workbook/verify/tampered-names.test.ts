import { describe } from "vitest";
import { expectFound } from "./expect-found";
import { names } from "./tamperings/names";

describe("names that were moved are found", () => expectFound(names));
