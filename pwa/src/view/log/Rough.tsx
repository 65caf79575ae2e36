/** Early, middle or late in the stage: what a crew knows of a place without being asked for km. */

import type { EventSetup, ReportBody } from "../../kit/api";
import { OneOf } from "../bits/Chips";
import { log } from "../words/log";
import { roughly, THIRDS, thirdOf } from "./thirds";

interface Rough {
  setup: EventSetup;
  draft: ReportBody;
  onChange: (draft: ReportBody) => void;
}

/** One row, where the report is of a stage whose length is known. */
export function Rough({ setup, draft, onChange }: Rough) {
  const stage = setup.stages.find((one) => one.stage === draft.stage);
  if (draft.where !== "stage" || stage === undefined) return null;
  return (
    <OneOf
      legend={log.thirds(stage.stage)}
      value={thirdOf(draft)}
      options={THIRDS.map((value) => ({ value, label: log.third[value] ?? value }))}
      onPick={(value) => onChange(roughly(draft, value, stage.km))}
    />
  );
}
