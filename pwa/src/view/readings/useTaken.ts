/** Readings that are being taken: what was touched, step by step back, and saved in one go. */

import { useState } from "preact/hooks";
import { type Reading, readingsOf } from "../../report/readings";
import { type Pending, usePending } from "../bits/usePending";
import type { CarScreen } from "../screen";
import { newReadings, reportFor, type Taken } from "./taken";
import { entriesOf } from "../../report/lists";

export interface Taking {
  readings: Reading[];
  taken: Taken;
  /** How many are new. */
  fresh: number;
  /** They call for a report. */
  reports: boolean;
  saved: { readings: number; reported: boolean } | null;
  pending: Pending;
  change(next: Taken): void;
  /** Null where nothing was touched. */
  undo: (() => void) | null;
  save(): void;
}

export function useTaken({ state, setup, car, actions }: CarScreen): Taking {
  const [taken, setTaken] = useState<Taken>({});
  const [before, setBefore] = useState<Taken[]>([]);
  const [saved, setSaved] = useState<Taking["saved"]>(null);
  const pending = usePending();
  const entries = entriesOf(state.entries);
  const readings = readingsOf(entries, car);
  const fresh = newReadings(taken);
  const report = reportFor(taken, readings, entries, car, setup, state.now);
  const undo = () => {
    setTaken(before.at(-1) ?? {});
    setBefore(before.slice(0, -1));
  };
  const save = async () => {
    await actions.takeReadings(fresh, report);
    setTaken({});
    setBefore([]);
    setSaved({ readings: fresh.length, reported: report !== null });
  };
  return {
    readings,
    taken,
    fresh: fresh.length,
    reports: report !== null,
    saved,
    pending,
    undo: before.length > 0 ? undo : null,
    change(next) {
      setBefore([...before, taken]);
      setTaken(next);
      setSaved(null);
    },
    save: () => void (fresh.length > 0 && pending.run(save)),
  };
}
