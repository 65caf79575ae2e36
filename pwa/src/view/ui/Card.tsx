/** One thing that stands alone; lists are rows. */

import type { ComponentChildren } from "preact";
import "./card.css";
import { Icon } from "./Icon";
import type { IconName } from "./icons";

interface CardProps {
  children: ComponentChildren;
  title?: string;
  level?: 2 | 3;
  /** It is the next thing to do, or the chosen one: a strong edge. */
  strong?: boolean;
}

export function Card({ children, title, level = 2, strong }: CardProps) {
  const Heading = level === 2 ? "h2" : "h3";
  return (
    <section class={strong ? "ui-card is-strong" : "ui-card"}>
      {title && <Heading class="ui-card-title">{title}</Heading>}
      {children}
    </section>
  );
}

/** Names and values, one pair a line. */
export function Facts({ facts }: { facts: readonly { name: string; value: ComponentChildren }[] }) {
  return (
    <dl class="ui-facts">
      {facts.map(({ name, value }) => (
        <div key={name}>
          <dt>{name}</dt>
          <dd>{value}</dd>
        </div>
      ))}
    </dl>
  );
}

/** What a banner says: an explanation, a caution, what holds, what is done. */
export type BannerTone = "note" | "caution" | "hold" | "done";

const BANNER_ICONS: Record<BannerTone, IconName> = { note: "note", caution: "caution", hold: "hold", done: "done" };

interface BannerProps {
  tone: BannerTone;
  title?: string;
  children?: ComponentChildren;
  /** Buttons under the text. */
  actions?: ComponentChildren;
  /** Spoken at once: it came up after a tap, and something is wrong. */
  urgent?: boolean;
}

/** Stays on the screen for as long as it is so; what passes goes to the message bar. */
export function Banner({ tone, title, children, actions, urgent }: BannerProps) {
  return (
    <div class={`ui-banner is-${tone}`} role={urgent ? "alert" : undefined}>
      <Icon name={BANNER_ICONS[tone]} size={20} />
      <div class="ui-banner-lines">
        {title && <strong>{title}</strong>} {children}
        {actions && <div class="ui-banner-actions">{actions}</div>}
      </div>
    </div>
  );
}

interface EmptyStateProps {
  icon: IconName;
  title: string;
  /** Why it is empty. */
  children?: ComponentChildren;
  /** The one thing to do next. */
  action?: ComponentChildren;
}

/** What this is, why it is empty, the one thing to do next: empty, first time, loading, offline, error. */
export function EmptyState({ icon, title, children, action }: EmptyStateProps) {
  return (
    <div class="ui-empty">
      <Icon name={icon} size={32} />
      <p class="ui-empty-title">{title}</p>
      {children && <p>{children}</p>}
      {action}
    </div>
  );
}

interface ProgressProps {
  /** What is being done. */
  label: string;
  /** How far it is, in words: *96 of 150*. */
  text?: string;
  /** Of `most`; nothing where nobody knows how much there is. */
  value?: number;
  most?: number;
}

/** A bar with its words; a screen reader hears the same. */
export function Progress({ label, text, value, most = 1 }: ProgressProps) {
  return (
    <div class="ui-progress">
      <span>{label}</span>
      {text && <span class="ui-progress-text">{text}</span>}
      <progress aria-label={label} aria-valuetext={text} value={value} max={most} />
    </div>
  );
}
