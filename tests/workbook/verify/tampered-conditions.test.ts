import { describe } from "vitest";
import { expectFound } from "./expect-found";
import { conditions } from "./tamperings/conditions";

describe("tampered words, rules and conditions are found", () => expectFound(conditions));
