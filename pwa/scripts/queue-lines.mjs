/**
 * Works out queues as a phone does: a line of JSON in, {"setup", "entries", "set_aside", "cars": […]}, for each car a
 * line out, the queue in RFC 8785 form. Holds the two programs that reckon the queue against each other.
 */

import { createInterface } from "node:readline";
import { fileURLToPath } from "node:url";
import { build } from "vite";

const ROOT = fileURLToPath(new URL("..", import.meta.url));

/** The app's own modules, bundled as they are for the phone's worker. */
async function heart() {
  const entry = `
    export { queueAnswer } from "${ROOT}src/queue/answer.ts";
    export { canonical } from "${ROOT}src/kit/canonical.ts";
  `;
  const { output } = await build({
    configFile: false,
    root: ROOT,
    logLevel: "error",
    plugins: [
      {
        name: "heart",
        resolveId: (id) => (id === "heart" ? "\0heart" : null),
        load: (id) => (id === "\0heart" ? entry : null),
      },
    ],
    ssr: { noExternal: true },
    build: { ssr: true, write: false, target: "es2022", rollupOptions: { input: "heart" } },
  });
  return import(`data:text/javascript;base64,${Buffer.from(output[0].code).toString("base64")}`);
}

const { queueAnswer, canonical } = await heart();
for await (const line of createInterface({ input: process.stdin, crlfDelay: Number.POSITIVE_INFINITY })) {
  const { cars, ...ask } = JSON.parse(line);
  for (const car of cars) process.stdout.write(`${canonical(queueAnswer({ ...ask, car }))}\n`);
}
