/** The hits of the chosen car, as somebody grouped their reports, and the form to say more about one. */

import { useState } from "preact/hooks";
import { NOTHING_SAID, type HitSaid, saidOf } from "../../report/grouping";
import { type Hit, hitsOf } from "../../report/incidents";
import { Download } from "../bits/Download";
import { usualPaper } from "../documents/papers";
import type { CarScreen } from "../screen";
import { documents } from "../words/documents";
import { incidents as words } from "../words/incidents";
import { HitCard } from "./HitCard";
import { HitForm } from "./HitForm";
import "./incidents.css";
import { hitsShown } from "./shown";

/** What is open in the form; `edited`: the grouping that it changes. */
interface Open {
  said: HitSaid;
  edited: string | null;
}

export function IncidentsScreen(props: CarScreen) {
  const { state, car } = props;
  const [open, setOpen] = useState<Open | null>(null);
  const close = () => {
    setOpen(null);
    // The button that opened the form is gone and back: who goes by keyboard begins at the top of the list.
    document.getElementById("screen")?.focus({ preventScroll: true });
    window.scrollTo(0, 0);
  };
  const all = hitsOf(state.entries, car);
  const hits = hitsShown(all, state);
  return (
    <div class="stack">
      <h1>{words.title}</h1>
      {open ? (
        <HitForm {...props} {...open} hits={hits} onDone={close} />
      ) : (
        <List {...props} hits={hits} onOpen={setOpen} />
      )}
    </div>
  );
}

function List(props: CarScreen & { hits: Hit[]; onOpen: (open: Open) => void }) {
  const { state, hits, onOpen } = props;
  const tell = (hit: Hit) =>
    onOpen(
      hit.grouping
        ? { said: saidOf(hit.grouping.data), edited: hit.incident }
        : { said: { ...NOTHING_SAID, reports: hit.reports }, edited: null },
    );
  return (
    <>
      <p>{words.what}</p>
      {!state.advice && <p class="soft">{words.roadOnly}</p>}
      {hits.length === 0 && <p>{words.none}</p>}
      {hits.length > 0 && (
        <button type="button" class="button" onClick={() => onOpen({ said: NOTHING_SAID, edited: null })}>
          {words.group}
        </button>
      )}
      <ul class="stack">
        {hits.map((hit) => (
          <HitCard key={hit.incident} {...props} hit={hit} onTell={() => tell(hit)} />
        ))}
      </ul>
      {hits.some(isDeclared) && <Declaration {...props} />}
    </>
  );
}

const isDeclared = ({ grouping }: Hit): boolean => {
  const said = grouping?.data;
  return Boolean(said?.property_hit || said?.others_involved || said?.others || said?.injured);
};

function Declaration({ setup, car, actions }: CarScreen) {
  const path = `cars/${encodeURIComponent(car)}/documents/declaration.pdf?paper=${usualPaper(setup.timezone)}`;
  return (
    <section class="sheet" aria-labelledby="declaration-title">
      <h2 id="declaration-title">{words.declaration}</h2>
      <p class="soft">{words.declarationNote}</p>
      <Download
        label={words.print}
        path={path}
        about={documents.about(documents.name.declaration ?? "", car, setup.name)}
        fetchDocument={actions.fetchDocument}
      />
    </section>
  );
}
