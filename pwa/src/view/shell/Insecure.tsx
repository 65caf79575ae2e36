/** Says, on every screen, that a page over plain http does not open without signal. */

import { Icon } from "../bits/Icon";
import { common } from "../words/common";

/** Nothing where the browser trusts the address: only there has it a service worker. */
export function Insecure() {
  if (globalThis.isSecureContext !== false) return null;
  return (
    <aside class="insecure" aria-label={common.insecureTitle}>
      <Icon name="attention" />
      <span>{common.insecure}</span>
    </aside>
  );
}
