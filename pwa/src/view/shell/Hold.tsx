/** The strip under the app bar on every screen of a car: what the log holds of its release, and the way to why. */

import type { AppState, ReleaseShown } from "../../flow/model";
import type { CarScreen } from "../screen";
import { Announced } from "../bits/Announced";
import { lazy } from "../bits/lazy";
import { useOpen } from "../bits/useOpen";
import { jobLabel } from "../labels";
import { countsOf } from "./holdCounts";
import { HoldStrip } from "../ui/HoldStrip";
import { common } from "../words/common";
import { shell } from "../words/shell";

const words = shell.strip;

const Reasons = lazy<Pick<CarScreen, "state" | "setup"> & { release: ReleaseShown; onClose: () => void }>(
  async () => (await import("../queue/HoldReasons")).HoldReasons,
  () => null,
);

/** Screens that are about the work: on arrival there a screen reader says how the car stands. */
const SPOKEN: readonly AppState["route"]["screen"][] = ["queue", "job", "service", "plan"];

export function Hold({ state, setup, car }: Pick<CarScreen, "state" | "setup" | "car">) {
  const reasons = useOpen();
  const { release, route } = state;
  if (release === null) return null;
  return (
    <>
      {SPOKEN.includes(route.screen) && <Announced key={route.screen} text={spoken(release, setup)} />}
      <HoldStrip
        label={words.label}
        quiet
        {...shown(release)}
        why={{ word: words.why, label: words.whyLabel, open: reasons.isOpen, onToggle: reasons.toggle }}
      />
      {reasons.isOpen && <Reasons key={car} {...{ state, setup, release }} onClose={reasons.close} />}
    </>
  );
}

function shown(release: ReleaseShown) {
  if (release.shown === "hold") return { state: "hold" as const, word: words.hold, text: countsOf(release.reasons) };
  if (release.shown === "nothing-open")
    return { state: "nothing" as const, word: words.nothing, text: words.nothingRest };
  return { state: "unknown" as const, word: words.unknown, text: "" };
}

function spoken(release: ReleaseShown, setup: CarScreen["setup"]): string {
  if (release.shown === "nothing-open") return `${words.nothing} ${words.nothingRest}`;
  if (release.shown === "not-known") return common.and(words.label, words.unknown);
  const names = release.reasons.map((one) => (one.job === null ? words.review(1) : jobLabel(setup.car_map, one.job)));
  return common.and(words.hold, `${countsOf(release.reasons)}: ${names.join(", ")}`);
}
