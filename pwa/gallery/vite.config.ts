/** Builds the gallery for its tests; `make dev` serves the same page, and the app's own build has nothing of it. */

import { fileURLToPath } from "node:url";
import { defineConfig } from "vite";
import { TARGETS } from "../scripts/targets.mjs";

const root = fileURLToPath(new URL("..", import.meta.url));

export default defineConfig({
  root,
  oxc: { jsx: { runtime: "automatic", importSource: "preact" } },
  build: {
    target: TARGETS,
    assetsInlineLimit: 0,
    emptyOutDir: true,
    rolldownOptions: { input: `${root}gallery/index.html` },
  },
});
