/** Says, on every screen, that a page over plain http does not open without signal. */

import { Icon } from "../bits/Icon";
import { notices } from "../words/notices";

/** Nothing where the browser trusts the address: only there has it a service worker. */
export function Insecure() {
  if (globalThis.isSecureContext !== false) return null;
  return (
    <aside class="insecure" aria-label={notices.insecureTitle}>
      <Icon name="attention" />
      <span>{notices.insecure}</span>
    </aside>
  );
}
