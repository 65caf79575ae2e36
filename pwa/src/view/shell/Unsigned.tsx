/** Says, on every screen, that what is logged here carries no signature where the event demands one. */

import type { AppState } from "../../flow/model";
import { Icon } from "../bits/Icon";
import { common } from "../words/common";

export function Unsigned({ state }: { state: AppState }) {
  const demanded = state.setup?.trust?.signatures === "on";
  if (!state.identity || state.identity.signs || !demanded) return null;
  return (
    <aside class="insecure" aria-label={common.unsigned.title}>
      <Icon name="attention" />
      <span>{globalThis.isSecureContext === false ? common.unsigned.insecure : common.unsigned.before}</span>
    </aside>
  );
}
