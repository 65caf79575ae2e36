/** What the app is and is not, the usual cautions, who decides. */

import { useOpen } from "../bits/useOpen";
import type { ScreenProps } from "../screen";
import { about as words } from "../words/about";
import { Tour } from "./Tour";

export function AboutScreen(_: ScreenProps) {
  const tour = useOpen();
  return (
    <div class="stack">
      <h1>{words.title}</h1>
      <Part title={words.is} texts={words.isText} />
      <Part title={words.not} texts={words.notText} />
      <section class="sheet" aria-labelledby="cautions-title">
        <h2 id="cautions-title">{words.cautions}</h2>
        <ul class="bulleted stack">
          {words.caution.map((text) => (
            <li key={text}>{text}</li>
          ))}
        </ul>
      </section>
      <Part title={words.decides} texts={[words.decidesText]} />
      <Part title={words.words} texts={[words.wordsText]} />
      {tour.isOpen ? (
        <Tour onEnd={tour.close} />
      ) : (
        <button type="button" class="button" onClick={tour.open}>
          {words.tour}
        </button>
      )}
    </div>
  );
}

function Part({ title, texts }: { title: string; texts: string[] }) {
  return (
    <section class="sheet" aria-label={title}>
      <h2>{title}</h2>
      {texts.map((text) => (
        <p key={text}>{text}</p>
      ))}
    </section>
  );
}
