import { describe } from "vitest";
import { expectFound } from "./expect-found";
import { readings } from "./tamperings/readings";

describe("tampered readings are found", () => expectFound(readings));
