import eslint from "@eslint/js";
import officeAddins from "eslint-plugin-office-addins";
import tseslint from "typescript-eslint";

// The plugin ships whole configurations with the formatting rules of others; only its own rules are wanted.
const officeRules = Object.fromEntries(
  officeAddins.configs.recommended
    .flatMap(({ rules = {} }) => Object.entries(rules))
    .filter(([name]) => name.startsWith("office-addins/")),
);

export default tseslint.config(
  { ignores: ["dist/**", "dist-perpetual/**", "coverage/**", "node_modules/**", "reports/**"] },
  eslint.configs.recommended,
  {
    files: ["**/*.ts"],
    extends: [...tseslint.configs.recommendedTypeChecked],
    languageOptions: { parserOptions: { projectService: true, tsconfigRootDir: import.meta.dirname } },
    rules: {
      "@typescript-eslint/no-explicit-any": "error",
      "@typescript-eslint/consistent-type-imports": "error",
      "@typescript-eslint/switch-exhaustiveness-check": "error",
      "@typescript-eslint/restrict-template-expressions": ["error", { allowNumber: true }],
      eqeqeq: "error",
      "no-eval": "error",
      "no-console": "error",
    },
  },
  {
    // Excel's metadata generator reads the parameter types as text: `any[][]` is its only word for "a range of cells".
    files: ["src/functions/**/*.ts"],
    rules: { "@typescript-eslint/no-explicit-any": "off" },
  },
  {
    files: ["src/taskpane/**/*.ts"],
    plugins: { "office-addins": officeAddins },
    rules: officeRules,
  },
  { files: ["src/cli/**/*.ts", "tests/bench/**/*.ts", "sample-workbooks/**/*.ts"], rules: { "no-console": "off" } },
  {
    files: ["**/*.js", "**/*.mjs"],
    languageOptions: { globals: { process: "readonly", console: "readonly", Buffer: "readonly", URL: "readonly" } },
  },
);
