/** Three cards for the first day, on the page and not over it: everything else goes on working beside them. */

import type { ComponentChildren } from "preact";
import { useEffect, useRef, useState } from "preact/hooks";
import { Icon } from "../bits/Icon";
import { tour as words } from "../words/about";
import "./tour.css";

export interface TourProps {
  onEnd: () => void;
}

const CARDS: { title: string; body: ComponentChildren }[] = [
  { title: words.finish.title, body: <Texts texts={words.finish.text} /> },
  { title: words.marks.title, body: <Marks /> },
  { title: words.not.title, body: <Texts texts={words.not.text} /> },
];

export function Tour({ onEnd }: TourProps) {
  const [at, setAt] = useState(0);
  const card = CARDS[at];
  const title = useRef<HTMLHeadingElement>(null);
  const last = at === CARDS.length - 1;
  // Told by the focus: as a live region its lines would be spoken over whatever else the screen says, and in any order.
  useEffect(() => {
    if (at > 0) title.current?.focus({ preventScroll: true });
  }, [at]);
  return (
    <section class="sheet tour" aria-label={words.label}>
      <div class="stack">
        <p class="soft">{words.count(at + 1, CARDS.length)}</p>
        <h2 ref={title} tabIndex={-1} class="form-title">
          {card?.title}
        </h2>
        {card?.body}
      </div>
      <div class="row even">
        {!last && (
          <button type="button" class="button" onClick={onEnd}>
            {words.skip}
          </button>
        )}
        <button type="button" class="button main" onClick={() => (last ? onEnd() : setAt(at + 1))}>
          {last ? words.done : words.next}
        </button>
      </div>
    </section>
  );
}

function Texts({ texts }: { texts: string[] }) {
  return (
    <>
      {texts.map((text) => (
        <p key={text}>{text}</p>
      ))}
    </>
  );
}

function Marks() {
  return (
    <>
      <ul class="stack">
        {words.marks.list.map(({ icon, text }) => (
          <li key={icon} class="status-line">
            <Icon name={icon} />
            <span>{text}</span>
          </li>
        ))}
      </ul>
      <p>{words.marks.number}</p>
    </>
  );
}
