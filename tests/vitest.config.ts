import { defineConfig } from "vitest/config";

export default defineConfig({
  test: {
    root: new URL("..", import.meta.url).pathname,
    include: ["tests/**/*.test.ts"],
    // Needs a folder that is no part of the project: "npm run test:reference".
    exclude: ["tests/reference/**"],
    testTimeout: 240_000,
    hookTimeout: 240_000,
  },
});
