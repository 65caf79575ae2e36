/** How it stands with this phone: waiting, heard, kept, offline, update. */

import type { Keeping } from "../../kit/kept_app";
import { ago, clockIn, ownZone } from "../../kit/time";
import { Icon } from "../bits/Icon";
import { followingSaid, keptSaid } from "../bits/KeptApp";
import { ProblemLine } from "../bits/Problem";
import { usePending } from "../bits/usePending";
import type { ScreenProps } from "../screen";
import { notices } from "../words/notices";
import { me as words } from "../words/me";

type Line = { ok: boolean; text: string };

/** When the server was last heard, on the event's clock, and how long ago: 14:20 may be yesterday's. */
function heard({ last_heard, setup, now }: ScreenProps["state"]): string {
  if (last_heard === null) return words.heardNever;
  const zone = setup?.timezone ?? ownZone();
  const at_ms = Date.parse(last_heard);
  return words.heard(clockIn(zone, at_ms), ago(at_ms, now));
}

/** Whether what is logged here can be believed by who hears it from others. */
function signing({ setup, identity }: ScreenProps["state"]): Line {
  if (setup?.trust?.signatures === "off") return { ok: false, text: words.signaturesOff };
  if (identity?.signs) return { ok: true, text: words.signed(identity.name) };
  const { insecure, before } = notices.unsigned;
  return { ok: false, text: globalThis.isSecureContext === false ? insecure : before };
}

/** Below it: about 150 photos of 0.3 MB, a long weekend. */
const LITTLE_BYTES = 50e6;

function room({ space }: ScreenProps["state"]): Line {
  if (!space) return { ok: false, text: words.roomUnknown };
  const left = Math.max(0, space.quota - space.used);
  return left < LITTLE_BYTES
    ? { ok: false, text: words.roomLittle(left) }
    : { ok: true, text: words.room(space.used, left) };
}

function keptApp(keeping: Keeping): Line {
  if (keeping.state === "never") return { ok: false, text: words.offlineNot };
  return { ok: keeping.state === "kept" || keeping.state === "ready", text: keptSaid(keeping) };
}

function reach({ unreachable, failed }: ScreenProps["state"]): string {
  if (failed) return words.failed;
  return unreachable ? words.unreachable : words.reachable;
}

function linesOf(state: ScreenProps["state"]): Line[] {
  const { persisted, following } = state;
  return [
    { ok: state.waiting === 0, text: words.waiting(state.waiting) },
    { ok: state.waiting_photos === 0, text: words.photos(state.waiting_photos) },
    { ok: state.attention === 0, text: words.attention(state.attention) },
    { ok: state.last_heard !== null, text: heard(state) },
    ...(state.resting ? [{ ok: false, text: words.resting }] : []),
    { ok: !state.unreachable, text: reach(state) },
    signing(state),
    // Not told yet, or never: until it is promised, it may be cleared. Lines as long as what takes their place move nothing.
    { ok: persisted === true, text: persisted ? words.kept : words.keptNot },
    room(state),
    keptApp(state.keeping),
    ...(following ? [{ ok: following.kept === following.of, text: followingSaid(following) }] : []),
    { ok: !state.update_ready, text: state.update_ready ? words.update : words.noUpdate },
  ];
}

export function PhoneStatus({ state, actions }: ScreenProps) {
  const { busy, problem, run } = usePending();
  return (
    <section class="sheet" aria-labelledby="status-title">
      <h2 id="status-title">{words.status}</h2>
      <ul class="stack" aria-live="polite">
        {linesOf(state).map((line) => (
          <li key={line.text} class="status-line">
            <Icon name={line.ok ? "sent" : "attention"} />
            <span>{line.text}</span>
          </li>
        ))}
      </ul>
      <ProblemLine text={problem} />
      <button type="button" class="button main" disabled={busy} onClick={() => run(() => actions.syncNow())}>
        {busy ? words.syncing : words.sync}
      </button>
      {state.persisted !== true && (
        <button type="button" class="button" disabled={busy} onClick={() => run(async () => actions.askToKeep())}>
          {words.keep}
        </button>
      )}
      {state.update_ready && (
        <button type="button" class="button" onClick={() => actions.applyUpdate()}>
          {words.updateDo}
        </button>
      )}
    </section>
  );
}
