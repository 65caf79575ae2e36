/** The bar at the top, 56 px: which car, where in the itinerary, whether the server answers, who is holding the phone. */

import type { ComponentChildren } from "preact";
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

/** A car's plate: read only, a button, or a list to choose from, which is the phone's own. */
interface PlateProps {
  text: string;
  label: string;
  onOpen?: () => void;
  choose?: { value: string; options: readonly { value: string; label: string }[]; onChoose: (value: string) => void };
}

interface AppBarProps {
  /** The car's number. */
  plate?: PlateProps;
  /** Before all else, as the link that skips the bar. */
  before?: ComponentChildren;
  back?: { label: string; onBack: () => void };
  /** The first line; `heading`: it is the screen's title. */
  title: string;
  heading?: boolean;
  /** The second line. */
  context?: string;
  /** `href`: where what is wrong is told. */
  sync?: { state: SyncState; word: string; href?: string };
  /** Its tap opens something here, or leads on. */
  person?: Omit<Named, "onOpen"> & { onOpen?: () => void; href?: string; open?: boolean };
  more?: { label: string; onOpen: () => void };
}

/** Dot and word; the word is what a screen reader speaks. */
export function SyncMark({ state, word, href }: NonNullable<AppBarProps["sync"]>) {
  const icon = SYNC_ICONS[state];
  const Mark = href === undefined ? "span" : "a";
  return (
    <Mark class={`ui-sync is-${state}`} href={href}>
      {icon ? <Icon name={icon} size={16} /> : <span class="ui-sync-dot" />}
      <span>{word}</span>
    </Mark>
  );
}

function Plate({ text, label, onOpen, choose }: PlateProps) {
  const plate = <span class="ui-plate">{text}</span>;
  if (choose) {
    return (
      <span class="ui-plate-button">
        <span aria-hidden="true">{plate}</span>
        <select
          aria-label={label}
          value={choose.value}
          onChange={(event) => choose.onChoose(event.currentTarget.value)}
        >
          {choose.options.map((one) => (
            <option key={one.value} value={one.value}>
              {one.label}
            </option>
          ))}
        </select>
      </span>
    );
  }
  if (!onOpen) return <span class="ui-plate-button is-only">{plate}</span>;
  return (
    <button type="button" class="ui-plate-button" aria-label={label} onClick={onOpen}>
      {plate}
    </button>
  );
}

function Person({ text, label, onOpen, href, open }: NonNullable<AppBarProps["person"]>) {
  const initials = <span class="ui-person">{text}</span>;
  if (href !== undefined) {
    return (
      <a class="ui-person-button" aria-label={label} href={href}>
        {initials}
      </a>
    );
  }
  return (
    <button type="button" class="ui-person-button" aria-label={label} aria-expanded={open} onClick={onOpen}>
      {initials}
    </button>
  );
}

export function AppBar({ plate, before, back, title, heading, context, sync, person, more }: AppBarProps) {
  const Title = heading ? "h1" : "p";
  return (
    <header class="ui-app-bar">
      {before}
      {back && <IconButton icon="back" label={back.label} onClick={back.onBack} />}
      {plate && <Plate {...plate} />}
      <div class="ui-app-bar-lines">
        <Title class="ui-app-bar-title">{title}</Title>
        {context && <p class="ui-app-bar-context">{context}</p>}
      </div>
      {sync && <SyncMark {...sync} />}
      {more && <IconButton icon="more" label={more.label} onClick={more.onOpen} />}
      {person && <Person {...person} />}
    </header>
  );
}
