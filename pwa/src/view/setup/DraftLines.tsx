/** How it stands with a draft: when it was kept, and whether somebody else was faster. */

import { useState } from "preact/hooks";
import { clockIn, msOf, ownZone } from "../../kit/time";
import { setup as words } from "../words/setup";
import type { Editing } from "./useSetup";

/** When the draft was kept last, or that it could not be. */
export function KeptLine({ editing }: { editing: Editing }) {
  const ms = msOf(editing.draft?.saved_at ?? "");
  if (editing.trouble) return <span class="warn">{editing.trouble}</span>;
  if (editing.keeping) return <span class="soft">{words.keeping}</span>;
  if (!editing.draft) return null;
  const zone = ownZone();
  return <span class="soft">{words.kept(clockIn(zone, ms ?? Date.now()))}</span>;
}

/** Says that somebody else was faster, and offers the way on. */
export function Newer({ editing }: { editing: Editing }) {
  const [text, setText] = useState<string | null>(null);
  return (
    <div role="status" class="stack problem">
      {editing.isOld && (
        <>
          <p class="warn">{words.newer}</p>
          <button
            type="button"
            class="button"
            onClick={() => {
              editing.bring();
              setText(words.brought);
            }}
          >
            {words.bring}
          </button>
        </>
      )}
      {text && !editing.isOld && <p>{text}</p>}
    </div>
  );
}
