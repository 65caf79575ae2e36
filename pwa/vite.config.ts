/** How the app is built: one page, hashed files, its own service worker. */

import { configDefaults, defineConfig } from "vitest/config";
import { VitePWA } from "vite-plugin-pwa";

import { apart } from "./scripts/apart.mjs";
import { TARGETS } from "./scripts/targets.mjs";
import { GROUPS } from "./scripts/chunks.mjs";
import { inOrder } from "./scripts/keeping-order.mjs";

/** Where `.ci/run` gathers what its parts took. */
const PARTS = process.env.SHUNTBOOK_PARTS;

const API = process.env.SHUNTBOOK_URL ?? "http://127.0.0.1:8017";

const APART = apart();

/** The form of a hit is fetched ahead, with all that it imports: the signal may go seconds after joining. */
const FORM = /\/log-/;

export default defineConfig({
  base: "/",
  oxc: { jsx: { runtime: "automatic", importSource: "preact" } },
  build: {
    // docs/browsers.md; `npm run floor` holds the built files to it.
    target: TARGETS,
    // The content security policy lets no data: picture or inline style through.
    assetsInlineLimit: 0,
    rolldownOptions: { output: { codeSplitting: { groups: GROUPS } } },
    // The list of what each screen loads besides would be a tenth of the first one. The app is kept whole on the phone: what a
    // screen imports is there as soon as it is asked for. Styles have to come with it all the same.
    modulePreload: {
      polyfill: false,
      resolveDependencies: (file, files, { hostType }) =>
        hostType === "html" || FORM.test(file) ? files : files.filter((one) => one.endsWith(".css")),
    },
  },
  worker: { format: "es", rolldownOptions: { output: { comments: false } } },
  server: { host: "127.0.0.1", proxy: { "/api": API } },
  // Not the harness beside it, which has a configuration of its own.
  optimizeDeps: { entries: ["index.html"] },
  // No test judges a time: the deadline is against hanging.
  test: {
    environment: "node",
    // A thread costs less to start than a process, and the app's modules less once than for each file.
    pool: "threads",
    maxWorkers: 2,
    projects: [
      {
        extends: true,
        test: {
          name: "together",
          include: ["tests/**/*.test.ts"],
          exclude: [...configDefaults.exclude, ...APART],
          isolate: false,
        },
      },
      { extends: true, test: { name: "apart", include: APART } },
    ],
    testTimeout: 60_000,
    globalSetup: PARTS ? ["tests/spent.ts"] : [],
    reporters: PARTS ? ["default", ["json", { outputFile: `${PARTS}/vitest.json` }]] : ["default"],
    coverage: {
      provider: "v8",
      reportOnFailure: true,
      include: ["src/**/*.{ts,tsx}"],
      exclude: ["src/**/*.d.ts"],
      reporter: [["text", { skipFull: true }], "json-summary"],
      reportsDirectory: "../build/coverage/app",
    },
  },
  plugins: [
    VitePWA({
      strategies: "injectManifest",
      srcDir: "src",
      filename: "sw.ts",
      injectRegister: null,
      injectManifest: {
        globPatterns: ["**/*.{html,js,css,svg,png,woff2,ttf}"],
        manifestTransforms: [(files) => ({ manifest: inOrder(files), warnings: [] })],
      },
      manifest: {
        name: "Shuntbook",
        short_name: "Shuntbook",
        description: "From a hit on a stage to the repair queue, the sign-off and the bill.",
        lang: "en",
        id: "/",
        start_url: "/",
        scope: "/",
        display: "standalone",
        background_color: "#12181f",
        theme_color: "#12181f",
        shortcuts: [
          { name: "Log a hit", url: "/#/log" },
          { name: "My reports", url: "/#/reports" },
          { name: "Queue", url: "/#/queue" },
          { name: "Service", url: "/#/service" },
        ].map((one) => ({ ...one, icons: [{ src: "/icon-192.png", sizes: "192x192", type: "image/png" }] })),
        // The same path and name as in src/kit/shared.ts.
        share_target: {
          action: "/share",
          method: "POST",
          enctype: "multipart/form-data",
          params: { files: [{ name: "photos", accept: ["image/*"] }] },
        },
        icons: [
          { src: "/icon.svg", sizes: "any", type: "image/svg+xml" },
          { src: "/icon-192.png", sizes: "192x192", type: "image/png" },
          { src: "/icon-512.png", sizes: "512x512", type: "image/png" },
          { src: "/icon-maskable-512.png", sizes: "512x512", type: "image/png", purpose: "maskable" },
        ],
      },
    }),
  ],
});
