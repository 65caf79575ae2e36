/** One entry that was set aside. */

import { useState } from "preact/hooks";
import type { Entry } from "../../kit/api";
import type { Actions, AppState, AsideItem } from "../../flow/model";
import { bodyOf } from "../../report/body";
import { isVersion } from "../../report/versions";
import { ProblemLine } from "../bits/Problem";
import { ReasonField } from "../bits/ReasonField";
import { usePending } from "../bits/usePending";
import { jobLabel } from "../labels";
import { whatSaid } from "../log/said";
import { aside as words } from "../words/aside";
import { reports as reportWords } from "../words/reports";
import { canAccept, entryIn, isInspection, isWhole, timeShown } from "./reading";

interface AsideCard {
  item: AsideItem;
  state: AppState;
  actions: Actions;
  onDecided: () => Promise<unknown>;
}

export function AsideCard({ item, state, actions, onDecided }: AsideCard) {
  const entry = entryIn(item.raw);
  return (
    <article class="sheet">
      <h2>{entry ? headOf(item, entry, state) : words.unreadable}</h2>
      <p class="strong">{words.code[item.code] ?? item.what}</p>
      {item.reviewed_at === null && <p>{words.todo[item.code] ?? words.todoOther}</p>}
      <Facts item={item} entry={entry} state={state} />
      <details>
        <summary>{words.raw}</summary>
        <p class="soft">{item.what}</p>
        {/* biome-ignore lint/a11y/noNoninteractiveTabindex: what scrolls must be reached by keyboard. */}
        <pre class="raw" tabIndex={0}>
          {entry ? JSON.stringify(entry, null, 1) : item.raw}
        </pre>
      </details>
      {item.reviewed_at === null && (
        <Decide item={item} rebuild={state.told?.rebuild ?? false} actions={actions} onDecided={onDecided} />
      )}
    </article>
  );
}

/** "Look: passed, Front left: Brake hose", "Report: Front left: Wheel bent". */
function headOf(item: AsideItem, entry: Entry, { setup }: AppState): string {
  const kind = reportWords.kind[entry.kind] ?? entry.kind;
  if (!setup || !isWhole(item)) return kind;
  if (isVersion(entry)) return `${kind}: ${whatSaid(bodyOf(entry), setup.car_map)}`;
  const subject = entry.subject ?? "";
  return subject.includes("/") ? `${kind.replace(":", "")}, ${jobLabel(setup.car_map, subject)}` : kind;
}

function Facts({ item, entry, state }: { item: AsideItem; entry: Entry | null; state: AppState }) {
  const { setup } = state;
  const name = (person: string) => setup?.people.find((one) => one.person === person)?.name ?? person;
  const bringer = item.brought_by_person ? name(item.brought_by_person) : null;
  const who = item.brought_by === null ? words.broughtByFile : words.onDevice(bringer ?? "?", item.brought_by);
  return (
    <>
      <p>
        {words.car(item.car)}
        {entry && `. ${words.wroteBy(name(entry.person), entry.device)}, ${timeShown(setup, entry.at)}`}
      </p>
      <p class="soft">{words.brought(who, timeShown(setup, item.received_at))}</p>
      {item.verdict && (
        <p>
          {words.decided(item.verdict, item.reviewed_by ? name(item.reviewed_by) : words.bySelf, item.reason ?? "")}
        </p>
      )}
    </>
  );
}

/** What accepting it means, or why it can't be. */
function meaning(item: AsideItem, can: boolean): string {
  if (can) return item.code === "odd-time" ? words.acceptSigned : words.acceptMeans;
  if (isInspection(item)) return words.inspectionNever;
  return isWhole(item) && item.code !== "conflict" ? words.onlyInRebuild : words.cannot;
}

function Decide({ item, rebuild, actions, onDecided }: Omit<AsideCard, "state"> & { rebuild: boolean }) {
  const can = canAccept(item, rebuild);
  const [reason, setReason] = useState("");
  const { busy, problem, run } = usePending();
  const decide = (verdict: "accepted" | "discarded") =>
    run(
      async () => {
        await actions.reviewAside(item.sha256, verdict, reason.trim());
        await onDecided();
      },
      reason.trim() ? null : words.needReason,
    );
  return (
    <>
      <p class="soft">{meaning(item, can)}</p>
      <ReasonField legend={words.why} other={words.own} usual={words.reasons} reason={reason} onChange={setReason} />
      <ProblemLine text={problem} />
      <div class="row even">
        {can && (
          <button type="button" class="button" disabled={busy} onClick={() => decide("accepted")}>
            {words.accept}
          </button>
        )}
        <button type="button" class="button" disabled={busy} onClick={() => decide("discarded")}>
          {words.discard}
        </button>
      </div>
    </>
  );
}
