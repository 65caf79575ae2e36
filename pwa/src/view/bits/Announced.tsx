/** A sentence for screen readers alone, spoken when it comes and when it changes. */

import { useEffect, useState } from "preact/hooks";

/** Long enough for a screen reader to take it; afterwards nobody comes by it a second time when reading down the page. */
const STAYS_MS = 5_000;

/** The region is there, empty, before the sentence comes into it: only then it is heard, and as one. */
export function Announced({ text }: { text: string }) {
  const [said, setSaid] = useState("");
  useEffect(() => {
    setSaid(text);
    const gone = setTimeout(setSaid, STAYS_MS, "");
    return () => clearTimeout(gone);
  }, [text]);
  return (
    <p class="unseen" role="status">
      {said}
    </p>
  );
}
