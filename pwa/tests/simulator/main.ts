/** The phones' side of the simulator: takes seeds from the pipe and says what came of each. */

import { queueStep } from "./clockwork";
import { History, type Plan } from "./history";
import { described, type Code } from "./phone";
import { readLine, writeLine } from "./pipe";

// fake-indexeddb asks for it at each step.
globalThis.setImmediate = queueStep as unknown as typeof setImmediate;
const cloneOfAll = globalThis.structuredClone;
// It copies each value that goes in or out: what is mostly text and numbers need not go through the engine's serializer.
globalThis.structuredClone = ((value: unknown) => copied(value)) as typeof structuredClone;

function copied(value: unknown): unknown {
  if (value === null || typeof value !== "object") return value;
  if (Array.isArray(value)) return value.map(copied);
  if (Object.getPrototypeOf(value) !== Object.prototype) return cloneOfAll(value);
  // To copy it whole first is quick: all that is no object is in its place then.
  const copy: Record<string, unknown> = { ...value };
  for (const name in copy) {
    const inner = copy[name];
    if (typeof inner === "object" && inner !== null) copy[name] = copied(inner);
  }
  return copy;
}

let failed: string[] = [];
process.on("unhandledRejection", (error) => {
  // A page that was killed leaves promises behind that nobody looks at any more; so does a disk that failed it.
  if (!(error instanceof DOMException)) failed.push(described(error));
});

/** Run the histories that the other side asks for, until it ends. */
export async function simulate(code: Code): Promise<void> {
  for (let plan = readLine(); plan; plan = readLine()) {
    failed = [];
    const history = new History(plan as unknown as Plan, code);
    const outcome = await history.run().catch((error: unknown) => ({ broken: described(error) }));
    history.end();
    if ("wrong" in outcome) outcome.wrong.push(...failed);
    writeLine({ op: "done", ...outcome });
  }
}
