// The rules for the site's scripts; run from the project's folder with --config tests/node/eslint.config.js.
import js from "@eslint/js";
import globals from "globals";
import sentences from "./sentences.js";

const OURS = "weighin/ui/static/weighin/js";
const WORKERS = [`${OURS}/device/page-worker.js`, `${OURS}/roll/worker.js`];
const CLASSIC = [`${OURS}/site/light.js`, ...WORKERS];

export default [
  { ignores: ["**/vendor/**", "**/node_modules/**", ".venv/**", "var/**"] },
  js.configs.recommended,
  {
    linterOptions: { reportUnusedDisableDirectives: "error" },
    rules: {
      eqeqeq: ["error", "always", { null: "ignore" }],
      "no-implicit-globals": "error",
      "no-var": "error",
      "object-shorthand": "error",
      "prefer-const": "error",
    },
  },
  {
    files: [`${OURS}/**/*.js`],
    ignores: CLASSIC,
    languageOptions: { ecmaVersion: 2022, sourceType: "module", globals: globals.browser },
    plugins: { weighin: { rules: { sentences } } },
    rules: { "weighin/sentences": "error" },
  },
  { files: [`${OURS}/site/light.js`], languageOptions: { ecmaVersion: 2022, sourceType: "script", globals: globals.browser } },
  {
    files: WORKERS,
    languageOptions: { ecmaVersion: 2022, sourceType: "script", globals: { ...globals.serviceworker, PAGE: "readonly", FILES: "readonly", VERSION: "readonly" } },
    rules: { "no-implicit-globals": "off" },
  },
  { files: ["tests/node/*.js"], languageOptions: { ecmaVersion: 2022, sourceType: "module", globals: globals.node } },
];
