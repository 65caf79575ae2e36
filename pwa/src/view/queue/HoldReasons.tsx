/** Why the car is held, or what is not known, over the screen that is open: the reasons by place. */

import type { HoldReason } from "../../kit/api";
import type { ReleaseShown } from "../../flow/model";
import { isWorking } from "../../report/road";
import { grouped } from "../../kit/grouped";
import { componentLabel, heardAt, zoneLabel } from "../labels";
import type { CarScreen } from "../screen";
import { List, Row, SectionHeader } from "../ui/Row";
import { Sheet } from "../ui/Sheet";
import { common } from "../words/common";
import { passes } from "../words/passes";
import { queue } from "../words/queue";
import "./reasons.css";
import { isManager, jobHref } from "./links";

interface HoldReasonsProps extends Pick<CarScreen, "state" | "setup"> {
  release: ReleaseShown;
  onClose: () => void;
}

export function HoldReasons({ state, setup, release, onClose }: HoldReasonsProps) {
  const reasons = release.shown === "hold" ? release.reasons : [];
  return (
    <Sheet open title={titleOf(release)} closeLabel={common.close} onClose={onClose}>
      <div class="hold-reasons">
        {reasons.length > 0 && <p>{queue.holdWhy}</p>}
        <Review reasons={reasons} leads={isManager(state)} onFollow={onClose} />
        {placesIn(reasons).map(([zone, here]) => (
          <AtPlace key={zone} {...{ setup, zone, onFollow: onClose }} reasons={here} />
        ))}
        <Why {...{ state, setup, release }} />
        {isWorking(state.identity?.roles ?? []) && (
          <List>
            <Row title={passes.link} meta={passes.linkAbout} href="#/passes" onFollow={onClose} />
          </List>
        )}
      </div>
    </Sheet>
  );
}

const titleOf = ({ shown }: ReleaseShown) =>
  shown === "hold" ? queue.hold : shown === "nothing-open" ? queue.nothing : queue.unknown;

const placesIn = (reasons: HoldReason[]) => [
  ...grouped(
    reasons.filter((one) => one.job !== null),
    (one) => one.job?.split("/")[0] ?? "",
  ),
];

/** What needs review holds the car, wherever it is. */
function Review({ reasons, leads, onFollow }: { reasons: HoldReason[]; leads: boolean; onFollow: () => void }) {
  const reason = reasons.find((one) => one.job === null);
  if (!reason) return null;
  return (
    <List>
      <Row
        title={leads ? queue.toAside : (queue.needs[reason.needs] ?? reason.needs)}
        meta={leads ? queue.needs[reason.needs] : undefined}
        tone="hold"
        {...(leads && { href: "#/aside", onFollow })}
      />
    </List>
  );
}

interface AtPlaceProps extends Pick<CarScreen, "setup"> {
  zone: string;
  reasons: HoldReason[];
  onFollow: () => void;
}

function AtPlace({ setup, zone, reasons, onFollow }: AtPlaceProps) {
  const map = setup.car_map;
  const id = `hold-${zone}`;
  return (
    <>
      <SectionHeader id={id} level={3} title={zoneLabel(map, zone)} meta={String(reasons.length)} tone="hold" />
      <List labelledBy={id}>
        {reasons.map(({ job, needs }) => (
          <Row
            key={`${job} ${needs}`}
            title={componentLabel(map, job?.split("/")[1] ?? "")}
            meta={queue.needs[needs] ?? needs}
            tone={needs === "re-inspection" ? "hold" : "inspect"}
            href={jobHref(job ?? "")}
            onFollow={onFollow}
          />
        ))}
      </List>
    </>
  );
}

/** What the log may not hold yet, when the server was heard, and who decides. */
function Why({ state, setup, release }: Pick<HoldReasonsProps, "state" | "setup" | "release">) {
  const heard_at = release.shown === "not-known" ? state.last_heard : release.heard_at;
  const why = release.shown === "nothing-open" ? [queue.nothingNote] : release.why;
  return (
    <div class="hold-notes">
      {why.map((sentence) => (
        <p key={sentence}>{sentence}</p>
      ))}
      <p>{heard_at ? queue.heard(heardAt(setup, heard_at, state.now)) : queue.heardNever}</p>
    </div>
  );
}
