/** How much of the app is kept on this phone, said while it is not all of it, and once when it is. */

import type { Keeping } from "../../kit/kept_app";
import { common } from "../words/common";

const words = common.keptApp;

/** Return it in words. */
export function keptSaid(keeping: Keeping): string {
  if (!("of" in keeping)) return words.ready;
  const { state, kept, of } = keeping;
  if (of === null) return state === "retrying" ? words.unknown : words.begins;
  return words[state](kept, of);
}

/** There from the first drawing of a first visit on, so that nothing moves under a finger; not on later visits. */
export function KeptApp({ keeping, screen }: { keeping: Keeping; screen: string }) {
  if (keeping.state === "kept" || keeping.state === "never") return null;
  if (keeping.state === "ready" && screen !== "log") return null;
  return <p class="soft kept-app">{keptSaid(keeping)}</p>;
}
