import { describe } from "vitest";
import { expectFound } from "./expect-found";
import { appearance } from "./tamperings/appearance";
import { verdicts } from "./tamperings/verdicts";

describe("tampered verdicts are found", () => expectFound(verdicts));
describe("what is hidden from the reader is found", () => expectFound(appearance));
