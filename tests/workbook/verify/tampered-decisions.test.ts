import { describe } from "vitest";
import { expectFound } from "./expect-found";
import { adjustments } from "./tamperings/adjustments";
import { decisions } from "./tamperings/decisions";

describe("what decides in place of PASSFAIL is found", () => expectFound(decisions));
describe("what changes figures and words on the way is found", () => expectFound(adjustments));
