/** One report as it stands, with what can be done to it. */

import type { EventSetup, Position } from "../../kit/api";
import type { Actions } from "../../flow/model";
import { bodyOf } from "../../report/body";
import type { EffectiveReport } from "../../report/effective";
import type { Voice } from "../../report/voices";
import { Icon } from "../bits/Icon";
import { Photos } from "../bits/Photo";
import { PhotoAdder } from "../bits/PhotoAdder";
import { SendingMark } from "../bits/SendingMark";
import { useOpen } from "../bits/useOpen";
import { Voices } from "../bits/Voices";
import { personName, timeOf } from "../labels";
import { whatSaid, whereSaid } from "../log/said";
import { merged } from "../log/merged";
import { positionSaid } from "../log/positionSaid";
import { common } from "../words/common";
import { log } from "../words/log";
import { place } from "../words/place";
import { reports as words } from "../words/reports";
import { Withdraw } from "./Withdraw";

interface ReportCardProps {
  report: EffectiveReport;
  setup: EventSetup;
  actions: Actions;
  voices: Voice[];
}

export function ReportCard({ report, setup, actions, voices }: ReportCardProps) {
  const map = setup.car_map;
  const first = report.versions.find((version) => version.kind === "report.filed");
  const body = report.withdrawn && first ? bodyOf(first) : report.body;
  return (
    <article class={report.withdrawn ? "sheet gone" : "sheet"}>
      <h1>{whatSaid(body, map)}</h1>
      <p class="soft">
        {[whereSaid(body), `${personName(setup, report.person)} ${timeOf(setup, report.at)}`].join(" · ")}
      </p>
      <p class="row">
        <SendingMark sending={report.sending} />
        {report.withdrawn && <span class="tag">{words.withdrawn}</span>}
        {report.two_versions && (
          <span class="tag must">
            <Icon name="two" />
            {common.twoVersions}
          </span>
        )}
      </p>
      {report.two_versions && <TwoVersions report={report} setup={setup} />}
      {!report.withdrawn && <Details report={report} />}
      <Photos
        photos={body.photos}
        photoUrl={actions.photoUrl}
        markPhoto={actions.markPhoto}
        onPhotos={
          report.withdrawn || report.two_versions
            ? undefined
            : (photos) => actions.amendReport(report.report, { ...body, photos })
        }
      />
      <Voices {...{ voices, setup, actions }} onto={report.withdrawn ? undefined : report.report} />
      {!report.withdrawn && <Doing report={report} setup={setup} actions={actions} />}
    </article>
  );
}

function TwoVersions({ report, setup }: { report: EffectiveReport; setup: EventSetup }) {
  return (
    <div class="versions">
      <p>{words.twoVersions}</p>
      <ul class="bulleted">
        {report.heads.map((head) => (
          <li key={head.id}>
            <span class="strong">{words.version(personName(setup, head.person), timeOf(setup, head.at))}:</span>{" "}
            {head.kind === "report.withdrawn" ? words.withdrawn : whatSaid(bodyOf(head), setup.car_map)}
          </li>
        ))}
      </ul>
    </div>
  );
}

function Details({ report: { body } }: { report: EffectiveReport }) {
  const from = body.direction === null ? "" : body.direction === "below" ? log.below : log.oclock(body.direction);
  const facts = [
    body.drives && words.drives(common.drives[body.drives] ?? body.drives),
    body.cause !== "unknown" && common.cause[body.cause],
    from && words.fromDirection(from.toLowerCase()),
  ].filter(Boolean);
  return (
    <>
      {facts.length > 0 && <p>{facts.join(" · ")}</p>}
      {body.note && <p class="note">{body.note}</p>}
      {body.position && <Where position={body.position} />}
    </>
  );
}

/** A geo URI (RFC 5870) opens in whatever map the phone has. */
function Where({ position }: { position: Position }) {
  const { lat, lon, accuracy_m } = position;
  const error = accuracy_m === null ? "" : `;u=${accuracy_m}`;
  return (
    <p>
      {positionSaid(position)} <a href={`geo:${lat},${lon}${error}`}>{place.map}</a>
    </p>
  );
}

function Doing({ report, setup, actions }: Omit<ReportCardProps, "voices">) {
  const withdrawal = useOpen();
  const addPhoto = (sha256: string) => {
    const now = merged(report, setup.car_map);
    return actions.amendReport(report.report, { ...now, photos: [...now.photos, sha256] });
  };
  return (
    <>
      <div class="row even">
        <button type="button" class="button" onClick={() => actions.go(`/log/${encodeURIComponent(report.report)}`)}>
          {report.two_versions ? words.join : words.amend}
        </button>
        <button type="button" class="button" aria-expanded={withdrawal.isOpen} onClick={withdrawal.toggle}>
          {words.withdraw}
        </button>
      </div>
      {!report.two_versions && <PhotoAdder keepPhoto={actions.keepPhoto} onKept={addPhoto} />}
      {withdrawal.isOpen && <Withdraw onWithdraw={(reason) => actions.withdrawReport(report.report, reason)} />}
    </>
  );
}
