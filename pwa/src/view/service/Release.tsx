/** The car leaves service: a fact in the log, with a reason where the log holds it or does not know. */

import { useState } from "preact/hooks";
import { ProblemLine } from "../bits/Problem";
import { usePending } from "../bits/usePending";
import { personName, timeOf } from "../labels";
import type { AtService } from "../screen";
import { service as words } from "../words/service";
import { visitOf } from "./day";

export function Release({ state, setup, car, actions, service }: AtService) {
  const [reason, setReason] = useState("");
  const { busy, problem, run } = usePending();
  const shown = state.release?.shown ?? "not-known";
  const needed = shown !== "nothing-open";
  const { released } = visitOf(
    state.entries.map((held) => held.entry),
    car,
    setup,
    service.service,
  );
  const missing = needed && reason.trim() === "" ? words.release.needReason : null;
  const tap = () =>
    run(async () => {
      await actions.releaseCar(service.service, reason.trim());
      setReason("");
    }, missing);
  return (
    <section class="sheet" aria-labelledby="release-title">
      <h2 id="release-title">{words.release.title}</h2>
      <p class="soft">{words.release.what}</p>
      {released && (
        <p class="strong">{words.release.released(personName(setup, released.person), timeOf(setup, released.at))}</p>
      )}
      <p>{words.tools}</p>
      {needed && <p class="warn">{shown === "hold" ? words.release.onHold : words.release.notKnown}</p>}
      <label>
        <span class="label">{needed ? words.release.reason : words.release.noteOptional}</span>
        <textarea value={reason} maxLength={1000} onInput={(event) => setReason(event.currentTarget.value)} />
      </label>
      <ProblemLine text={problem} />
      <button type="button" class="button" disabled={busy} onClick={tap}>
        {shown === "hold" ? words.release.buttonHold : words.release.button}
      </button>
    </section>
  );
}
