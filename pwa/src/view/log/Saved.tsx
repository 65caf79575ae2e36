/** After saving: what was kept, whether the server has it, and what one may want to do next. */

import { useEffect, useState } from "preact/hooks";
import type { EventSetup, ReportBody } from "../../kit/api";
import type { Actions, AppState } from "../../flow/model";
import { reportsOf } from "../../report/effective";
import { voicesBySubject } from "../../report/voices";
import { Photos } from "../bits/Photo";
import { PhotoAdder } from "../bits/PhotoAdder";
import { ProblemLine } from "../bits/Problem";
import { Voices } from "../bits/Voices";
import { lazy } from "../bits/lazy";
import { markSaid, wasSaid } from "../bits/saidOnce";
import { takeFocus } from "../bits/takeFocus";
import { SendingMark } from "../bits/SendingMark";
import { usePending } from "../bits/usePending";
import type { ScreenProps } from "../screen";
import { log } from "../words/log";
import { sameOtherSide } from "./draft";
import { whatSaid, whereSaid } from "./said";

const HomeScreen = lazy<ScreenProps>(
  async () => (await import("../me/HomeScreen")).HomeScreen,
  () => null,
);

interface Saved {
  state: AppState;
  setup: EventSetup;
  car: string;
  actions: Actions;
  report: string;
  said: ReportBody;
  onAgain: () => void;
  onOtherSide: (draft: ReportBody) => void;
}

export function Saved({ state, setup, car, actions, report, said, onAgain, onOtherSide }: Saved) {
  const { busy, problem, run } = usePending();
  const [withdrawn, setWithdrawn] = useState(false);
  const standing = reportsOf(state.entries, car).find((one) => one.report === report);
  const body = standing && !standing.withdrawn ? standing.body : said;
  const other = sameOtherSide(said, setup.car_map);
  const withdraw = () =>
    run(async () => {
      await actions.withdrawReport(report, log.kept.undoReason);
      setWithdrawn(true);
    });
  return (
    <div class="stack">
      <section class="sheet kept">
        <h2 ref={takeFocus} tabIndex={-1}>
          {withdrawn ? log.kept.withdrawn : log.kept.title}
        </h2>
        <p class="strong">{whatSaid(body, setup.car_map)}</p>
        <p>{whereSaid(body)}</p>
        <SendingMark sending={standing?.sending ?? "waiting"} />
        <Photos
          photos={body.photos}
          photoUrl={actions.photoUrl}
          markPhoto={actions.markPhoto}
          onPhotos={withdrawn ? undefined : (photos) => actions.amendReport(report, { ...body, photos })}
        />
      </section>
      {state.resting && <p class="strong">{log.kept.resting}</p>}
      <ProblemLine text={problem} />
      {!withdrawn && (
        <PhotoAdder
          keepPhoto={actions.keepPhoto}
          onKept={(sha256) => actions.amendReport(report, { ...body, photos: [...body.photos, sha256] })}
        />
      )}
      {!withdrawn && (
        <Voices
          voices={voicesBySubject(state.entries, car, setup, state.identity?.person).get(report) ?? []}
          onto={report}
          {...{ setup, actions }}
        />
      )}
      {other && (
        <button type="button" class="button wide" onClick={() => onOtherSide(other)}>
          {log.kept.again}
        </button>
      )}
      <a class="button wide" href={`#/codes/${encodeURIComponent(report)}`}>
        {log.kept.code}
      </a>
      <button type="button" class="button main wide" onClick={onAgain}>
        {log.kept.another}
      </button>
      {!withdrawn && (
        <div class="row even">
          <button type="button" class="button" onClick={() => actions.go(`/log/${encodeURIComponent(report)}`)}>
            {log.kept.amend}
          </button>
          <button type="button" class="button" disabled={busy} onClick={withdraw}>
            {log.kept.undo}
          </button>
        </div>
      )}
      <HomeOnce state={state} actions={actions} />
    </div>
  );
}

/** Once on a phone, after a report is saved: then it is known what would get lost. */
function HomeOnce(props: ScreenProps) {
  const [now] = useState(() => props.state.install !== null && !wasSaid("home"));
  useEffect(() => {
    if (now) markSaid("home");
  }, [now]);
  return now && props.state.install ? <HomeScreen {...props} /> : null;
}
