/** Why the job is there: the newest report with its photo, the others one tap away. */

import type { EventSetup, Job } from "../../kit/api";
import type { Actions } from "../../flow/model";
import type { Voice } from "../../report/voices";
import { Photos } from "../bits/Photo";
import { useOpen } from "../bits/useOpen";
import { Voices } from "../bits/Voices";
import type { Reason } from "../queue/why";
import { job as words } from "../words/job";
import { places } from "../words/places";
import { queue } from "../words/queue";

interface ReasonsProps {
  job: Job;
  setup: EventSetup;
  reasons: Reason[];
  actions: Actions;
  voices: Voice[];
}

export function JobReasons({ job, setup, reasons, actions, voices }: ReasonsProps) {
  const others = useOpen();
  const inOrder = photoFirst(reasons);
  const shown = others.isOpen ? inOrder : inOrder.slice(0, 1);
  return (
    <section class="ui-card job-why" aria-labelledby="why-title">
      <h2 id="why-title" class="unseen">
        {words.why}
      </h2>
      {job.retracted && <p class="soft">{queue.retracted}</p>}
      {shown.map((reason) => (
        <OneReason key={reason.id} {...{ reason, actions }} />
      ))}
      {reasons.length === 0 && <Photos photos={job.photos} photoUrl={actions.photoUrl} />}
      {reasons.length > shown.length && (
        <button type="button" class="button quiet" onClick={others.open}>
          {places.moreReports(reasons.length - shown.length)}
        </button>
      )}
      <Voices {...{ voices, setup, actions }} />
    </section>
  );
}

/** What can be seen says most: the newest report with a photo stands in front, the others stay as they are. */
function photoFirst(reasons: Reason[]): Reason[] {
  const seen = reasons.find((one) => one.photos.length > 0);
  return seen ? [seen, ...reasons.filter((one) => one !== seen)] : reasons;
}

const OneReason = ({ reason, actions }: { reason: Reason; actions: Actions }) => (
  <div class="job-reason">
    <Photos photos={reason.photos} photoUrl={actions.photoUrl} />
    <div>
      <p class="strong">{reason.says}</p>
      <p class="soft small">{reason.head}</p>
      {reason.note && <p class="note">{reason.note}</p>}
    </div>
  </div>
);
