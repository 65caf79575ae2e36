/** What the crew notices, one tap away; a symptom that means stop says so in words when it is chosen. */

import type { CarMap, ReportBody } from "../../kit/api";
import { AnyOf } from "../bits/Chips";
import { stopLabel, symptomLabel } from "../labels";
import { log } from "../words/log";
import { withSymptom } from "./draft";
import { symptomsOf } from "./likely";
import { common } from "../words/common";

interface Symptoms {
  map: CarMap;
  draft: ReportBody;
  /** Open from the start where the report has no zone. */
  open: boolean;
  onChange: (draft: ReportBody) => void;
}

/** The map's own sentence for a symptom that stops the car, "" where it does not. */
function stopOf(map: CarMap, symptom: string): string {
  const stop = map.symptoms[symptom]?.stop;
  if (!stop) return "";
  return stopLabel(map, symptom) || log.symptomStop;
}

export function Symptoms({ map, draft, open, onChange }: Symptoms) {
  const codes = [...new Set([...symptomsOf(map, draft.zone), ...draft.symptoms])];
  const stops = draft.symptoms.map((code) => ({ code, stop: stopOf(map, code) })).filter(({ stop }) => stop);
  return (
    <details open={open || draft.symptoms.length > 0}>
      <summary>{log.noticeCount(draft.symptoms.length)}</summary>
      <div class="stack">
        <div aria-live="polite">
          {stops.map(({ code, stop }) => (
            <p key={code} class="warn">
              {common.and(symptomLabel(map, code), stop)}
            </p>
          ))}
        </div>
        <AnyOf
          legend={log.notice}
          legendUnseen
          options={codes.map((value) => ({ value, label: symptomLabel(map, value) }))}
          chosen={draft.symptoms}
          onToggle={(code, on) => onChange(withSymptom(draft, code, on))}
        />
      </div>
    </details>
  );
}
