/** A sentence for screen readers alone, spoken when it comes and when it changes. */

import { useEffect, useState } from "preact/hooks";

/** Long enough for a screen reader to take it; afterwards nobody comes by it a second time when reading down the page. */
const STAYS_MS = 5_000;

/**
 * The region is there, empty, before the sentence comes into it: only then it is heard, and as one.
 * An effect alone does not wait for that: on a slow phone it runs before anything is painted. The second frame comes
 * after the first is on the screen; a hidden page, which nobody reads, has no frames and speaks when it is seen again.
 */
export function Announced({ text }: { text: string }) {
  const [said, setSaid] = useState("");
  useEffect(() => {
    let gone: ReturnType<typeof setTimeout> | undefined;
    let frame = requestAnimationFrame(() => {
      frame = requestAnimationFrame(() => {
        setSaid(text);
        gone = setTimeout(setSaid, STAYS_MS, "");
      });
    });
    return () => {
      cancelAnimationFrame(frame);
      clearTimeout(gone);
    };
  }, [text]);
  return (
    <p class="unseen" role="status">
      {said}
    </p>
  );
}
