/** Says, on every screen, that what is logged here carries no signature where the event demands one. */

import type { AppState } from "../../flow/model";
import { Icon } from "../bits/Icon";
import { notices } from "../words/notices";

export function Unsigned({ state }: { state: AppState }) {
  const demanded = state.setup?.trust?.signatures === "on";
  if (!state.identity || state.identity.signs || !demanded) return null;
  return (
    <aside class="insecure" aria-label={notices.unsigned.title}>
      <Icon name="attention" />
      <span>{globalThis.isSecureContext === false ? notices.unsigned.insecure : notices.unsigned.before}</span>
    </aside>
  );
}
