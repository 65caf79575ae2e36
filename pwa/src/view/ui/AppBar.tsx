/** The bar at the top, 56 px: which car, where in the itinerary, whether the server answers, who is holding the phone. */

import "./bars.css";
import { IconButton } from "./Button";
import { Icon } from "./Icon";
import type { IconName } from "./icons";

/** How what is logged gets to the server; each state has a shape of its own. */
export type SyncState = "live" | "waiting" | "offline" | "problem";

const SYNC_ICONS: Record<SyncState, IconName | null> = {
  live: null,
  waiting: null,
  offline: "offline",
  problem: "caution",
};

interface Named {
  /** What stands there, as *41* or *TM*. */
  text: string;
  /** Its name for screen readers, as *Car 41, change*. */
  label: string;
  onOpen: () => void;
}

interface AppBarProps {
  /** The car's number; none on a screen that was opened from another one. */
  plate?: Named;
  back?: { label: string; onBack: () => void };
  /** The first line; `heading`: it is the screen's title. */
  title: string;
  heading?: boolean;
  /** The second line. */
  context?: string;
  sync?: { state: SyncState; word: string };
  person?: Named;
  more?: { label: string; onOpen: () => void };
}

/** Dot and word; the word is what a screen reader speaks. */
export function SyncMark({ state, word }: { state: SyncState; word: string }) {
  const icon = SYNC_ICONS[state];
  return (
    <span class={`ui-sync is-${state}`}>
      {icon ? <Icon name={icon} size={16} /> : <span class="ui-sync-dot" />}
      <span>{word}</span>
    </span>
  );
}

function Plate({ text, label, onOpen }: Named) {
  return (
    <button type="button" class="ui-plate-button" aria-label={label} onClick={onOpen}>
      <span class="ui-plate">{text}</span>
    </button>
  );
}

export function AppBar({ plate, back, title, heading, context, sync, person, more }: AppBarProps) {
  const Title = heading ? "h1" : "p";
  return (
    <header class="ui-app-bar">
      {back && <IconButton icon="back" label={back.label} onClick={back.onBack} />}
      {plate && <Plate {...plate} />}
      <div class="ui-app-bar-lines">
        <Title class="ui-app-bar-title">{title}</Title>
        {context && <p class="ui-app-bar-context">{context}</p>}
      </div>
      {sync && <SyncMark {...sync} />}
      {more && <IconButton icon="more" label={more.label} onClick={more.onOpen} />}
      {person && (
        <button type="button" class="ui-person-button" aria-label={person.label} onClick={person.onOpen}>
          <span class="ui-person">{person.text}</span>
        </button>
      )}
    </header>
  );
}
