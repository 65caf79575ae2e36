/** What may be said later or never: km, direction, cause, note. */

import type { Cause, EventSetup, ReportBody } from "../../kit/api";
import { OneOf } from "../bits/Chips";
import { common } from "../words/common";
import { log } from "../words/log";
import { DirectionDial } from "./DirectionDial";
import { KmField } from "./KmField";

interface More {
  setup: EventSetup;
  draft: ReportBody;
  open: boolean;
  onChange: (draft: ReportBody) => void;
}

const CAUSES = Object.keys(common.cause) as Cause[];

export function More({ setup, draft, open, onChange }: More) {
  const stage = setup.stages.find((one) => one.stage === draft.stage);
  return (
    <details open={open}>
      <summary>{log.more}</summary>
      <div class="stack">
        {draft.where === "stage" && <KmField draft={draft} stage_km={stage?.km ?? null} onChange={onChange} />}
        <OneOf
          legend={log.cause}
          value={draft.cause}
          options={CAUSES.map((value) => ({ value, label: common.cause[value] ?? value }))}
          onPick={(cause) => onChange({ ...draft, cause })}
        />
        <DirectionDial value={draft.direction} onPick={(direction) => onChange({ ...draft, direction })} />
        <label>
          <span class="label">{log.note}</span>
          <textarea
            value={draft.note}
            maxLength={2000}
            onInput={(event) => onChange({ ...draft, note: event.currentTarget.value })}
          />
        </label>
      </div>
    </details>
  );
}
