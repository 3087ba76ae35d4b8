// Rules for the scripts of the report's page (io/report/page).
import js from "@eslint/js";
import globals from "globals";

export default [
  js.configs.recommended,
  {
    languageOptions: { ecmaVersion: 2022, sourceType: "module", globals: globals.browser },
    linterOptions: { reportUnusedDisableDirectives: "error" },
    rules: {
      complexity: ["error", 15],
      eqeqeq: "error",
      "max-len": ["error", 100],
      "max-lines": ["error", 300],
      "max-lines-per-function": ["error", 60],
      "no-redeclare": "error",
      "no-undef": "error",
      "no-unused-vars": "error",
      "no-use-before-define": ["error", { functions: false, variables: false }],
      "no-var": "error",
      "prefer-const": "error",
    },
  },
];
