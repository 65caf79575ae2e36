/** Loads the app's own modules into a script, bundled as they are for the phone. */

import { fileURLToPath } from "node:url";
import { build } from "vite";

const ROOT = fileURLToPath(new URL("..", import.meta.url));

/**
 * Return the module that exports `names` of each file of src/.
 *
 * @template T
 * @param {Record<string, string[]>} names by the file's path below src/
 * @returns {Promise<T>}
 */
export async function bundled(names) {
  const entry = Object.entries(names)
    .map(([path, exported]) => `export { ${exported.join(", ")} } from ${JSON.stringify(`${ROOT}src/${path}`)};`)
    .join("\n");
  const built = await build({
    configFile: false,
    root: ROOT,
    logLevel: "error",
    plugins: [
      {
        name: "asked",
        resolveId: (id) => (id === "asked" ? "\0asked" : null),
        load: (id) => (id === "\0asked" ? entry : null),
      },
    ],
    ssr: { noExternal: true },
    build: { ssr: true, write: false, target: "es2022", rollupOptions: { input: "asked" } },
  });
  if (Array.isArray(built) || !("output" in built)) throw new Error("Vite built something else than one bundle");
  return import(`data:text/javascript;base64,${Buffer.from(built.output[0].code).toString("base64")}`);
}
