/** Serves the screens with a made-up state, for looking at them; no part of the build. */

import { defineConfig } from "vite";

export default defineConfig({
  root: new URL(".", import.meta.url).pathname,
  cacheDir: "../node_modules/.vite-harness",
  oxc: { jsx: { runtime: "automatic", importSource: "preact" } },
  server: {
    host: "127.0.0.1",
    port: 5199,
    strictPort: true,
    fs: { allow: [".."] },
    headers: {
      "Content-Security-Policy": "img-src 'self' blob: data:; base-uri 'none'; form-action 'none'",
    },
  },
});
