/** How much of the app is kept on this phone, said while it is not all of it, and once when it is. */

import { useRef } from "preact/hooks";
import type { Following, Keeping } from "../../kit/kept_app";
import { common } from "../words/common";

const words = common.keptApp;

/** Return it in words. */
export function keptSaid(keeping: Keeping): string {
  if (!("of" in keeping)) return words.ready;
  const { state, kept, of } = keeping;
  if (of === null) return state === "retrying" ? words.unknown : words.begins;
  return words[state](kept, of);
}

/** Return what follows in the background in words. */
export function followingSaid({ kept, of, failed }: Following): string {
  if (kept === of) return words.followed;
  return failed ? words.followsLater(kept, of) : words.follows(kept, of);
}

interface KeptAppProps {
  keeping: Keeping;
  following: Following | null;
  screen: string;
}

/**
 * There from the first drawing of a first visit on; not on later visits. Where it was said that it is being kept it is
 * said that it is, too, until somebody goes on to another screen: nothing moves under a finger.
 */
export function KeptApp({ keeping, following, screen }: KeptAppProps) {
  const said = useRef("log");
  // Under Me it is told in full, and on the wall it is nobody's.
  if (keeping.state === "kept" || keeping.state === "never" || screen === "me" || screen === "board") return null;
  if (keeping.state !== "ready") said.current = screen;
  else if (screen !== "log" && screen !== said.current) return null;
  const also = keeping.state === "ready" && following ? ` ${followingSaid(following)}` : "";
  return <p class="soft kept-app">{keptSaid(keeping) + also}</p>;
}
