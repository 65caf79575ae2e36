/** The ways to the screens: a row of tabs at the thumb on a phone, a bar at the side where there is room. */

import type { ComponentChildren } from "preact";
import "./tabs.css";
import { Icon } from "./Icon";
import type { IconName } from "./icons";

export interface Destination {
  id: string;
  label: string;
  icon: IconName;
  href: string;
  /** What waits there; `label` says what the number counts. */
  count?: { number: number; label: string };
}

interface TabsProps {
  /** The name of the navigation, as *Screens*. */
  label: string;
  destinations: readonly Destination[];
  /** The id of the one that is shown. */
  current: string;
}

function Count({ count }: { count: Destination["count"] }) {
  if (!count || count.number === 0) return null;
  return (
    <span class="ui-count">
      <span aria-hidden="true">{count.number > 99 ? "99+" : count.number}</span>
      <span class="unseen">{count.label}</span>
    </span>
  );
}

const link = (one: Destination, current: string) => (
  <li key={one.id}>
    <a href={one.href} aria-current={one.id === current ? "page" : undefined}>
      <span class="ui-tab-icon">
        <Icon name={one.icon} />
        <Count count={one.count} />
      </span>
      <span class="ui-tab-label">{one.label}</span>
    </a>
  </li>
);

/** Four at the most, five with More: 64 px, each as wide as the others. */
export function Tabs({ label, destinations, current }: TabsProps) {
  return (
    <nav class="ui-tabs" aria-label={label}>
      <ul>{destinations.map((one) => link(one, current))}</ul>
    </nav>
  );
}

interface SideBarProps extends TabsProps {
  brand: string;
  /** What stands at its foot, as the event and its days. */
  children?: ComponentChildren;
}

/** From 900 px on. */
export function SideBar({ label, destinations, current, brand, children }: SideBarProps) {
  return (
    <nav class="ui-side" aria-label={label}>
      <p class="ui-side-brand">{brand}</p>
      <ul>{destinations.map((one) => link(one, current))}</ul>
      <div class="ui-side-foot">{children}</div>
    </nav>
  );
}
