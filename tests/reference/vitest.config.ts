import { defineConfig } from "vitest/config";

export default defineConfig({
  test: {
    root: new URL("../..", import.meta.url).pathname,
    include: ["tests/reference/*.test.ts"],
    // The review page as it is built.
    globalSetup: "tests/build/shared-build.ts",
    testTimeout: 240_000,
    hookTimeout: 240_000,
  },
});
