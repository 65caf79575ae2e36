/** The car has stopped: people first, the log after. */

import { takeFocus } from "../bits/takeFocus";
import { log } from "../words/log";

/** Takes the focus once, so that it is read first; it blocks nothing else. */
export function StopCard({ emergency, onGo }: { emergency: string; onGo: () => void }) {
  return (
    <section class="stop-card" aria-labelledby="stop-title">
      <h2 id="stop-title" ref={takeFocus} tabIndex={-1}>
        {log.stop.title}
      </h2>
      <ol>
        {log.stop.items.map((item) => (
          <li key={item}>{item}</li>
        ))}
      </ol>
      {emergency && (
        <a class="button alarm wide" href={`tel:${emergency.replace(/[^+\d]/g, "")}`}>
          {log.stop.call(emergency)}
        </a>
      )}
      <p>{log.stop.after}</p>
      <a class="button wide" href="#/retired">
        {log.hasRetired}
      </a>
      <button type="button" class="button main wide" onClick={onGo}>
        {log.stop.go}
      </button>
    </section>
  );
}
