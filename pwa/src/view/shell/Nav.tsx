/** The row at the bottom: the screens that the person's roles use. */

import type { Role } from "../../kit/api";
import { Icon } from "../bits/Icon";
import { common } from "../words/common";

type Screen = "log" | "reports" | "queue" | "service" | "costs" | "me";

/** Screens by role, the most used first; several roles share one row. */
export function screensOf(roles: Role[]): Screen[] {
  if (roles.includes("manager")) return ["queue", "costs", "log", "service", "me"];
  if (roles.includes("mechanic") || roles.includes("inspector")) return ["queue", "log", "reports", "service", "me"];
  return ["log", "reports", "service", "me"];
}

export function Nav({ screens, here }: { screens: Screen[]; here: string }) {
  return (
    <nav class="foot" aria-label={common.nav}>
      <ul>
        {screens.map((screen) => (
          <li key={screen}>
            <a href={`#/${screen}`} aria-current={screen === here ? "page" : undefined}>
              <Icon name={screen} />
              {common.navLabel[screen]}
            </a>
          </li>
        ))}
      </ul>
    </nav>
  );
}
