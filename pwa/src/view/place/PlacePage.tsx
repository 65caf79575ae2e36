/** All that is open at one place: what was reported, repairs, what is inspected together, what is checked on the ground. */

import { useOpen } from "../bits/useOpen";
import type { Entry } from "../../kit/api";
import type { AtPlace } from "../../report/at_place";
import { checksOf } from "../../report/looks";
import { SmallCar } from "../car/SmallCar";
import { zoneLabel } from "../labels";
import type { CarScreen } from "../screen";
import { NoWork } from "../service/NoWork";
import { EmptyState } from "../ui/Card";
import { List, SectionHeader } from "../ui/Row";
import { looks } from "../words/looks";
import { places as words } from "../words/places";
import { CageRow, CheckLine, InspectRow, JobRow } from "./Rows";
import { PlaceDock } from "./PlaceDock";
import { PlaceReports } from "./PlaceReports";
import { timeText } from "./shown";

export interface PlacePart extends CarScreen {
  zone: string;
  /** All entries of the car, and those that stand, oldest first. */
  entries: Entry[];
  valid: Entry[];
  here: AtPlace;
}

export function PlacePage(props: PlacePart) {
  const { setup, zone, here } = props;
  const open = [...here.repair, ...here.inspect, ...here.cage];
  const minutes = open.reduce((sum, job) => sum + job.estimate.minutes_expected, 0);
  return (
    <>
      <div class="place-title">
        <SmallCar zone={zone} />
        <div>
          <h1>{zoneLabel(setup.car_map, zone)}</h1>
          {open.length > 0 && <p class="soft">{words.sum(open.length, timeText(minutes))}</p>}
        </div>
      </div>
      <NoWork {...props} />
      <PlaceReports {...props} jobs={open} />
      {open.length === 0 && (
        <EmptyState icon="nothing" title={words.empty}>
          {words.emptyNote}
        </EmptyState>
      )}
      <Repairs {...props} />
      <Inspections {...props} />
      <Ground {...props} />
      <Done {...props} />
      <PlaceDock {...props} />
    </>
  );
}

function Repairs(props: PlacePart) {
  const { repair } = props.here;
  if (repair.length === 0) return null;
  const minutes = repair.reduce((sum, job) => sum + job.estimate.minutes_expected, 0);
  return (
    <section>
      <SectionHeader id="place-repair" title={words.repair} meta={timeText(minutes)} />
      <List labelledBy="place-repair">
        {repair.map((job) => (
          <JobRow key={job.job} {...props} job={job} />
        ))}
      </List>
    </section>
  );
}

function Inspections(props: PlacePart) {
  const { inspect, cage } = props.here;
  const minutes = inspect.reduce((sum, job) => sum + job.estimate.minutes_expected, 0);
  return (
    <>
      {inspect.length > 0 && (
        <section>
          <SectionHeader id="place-inspect" title={words.inspect} meta={timeText(minutes)} tone="hold" />
          <List labelledBy="place-inspect">
            <InspectRow {...props} jobs={inspect} />
          </List>
        </section>
      )}
      {cage.length > 0 && (
        <section>
          <SectionHeader id="place-cage" title={words.cage} tone="hold" />
          <List labelledBy="place-cage">
            {cage.map((job) => (
              <CageRow key={job.job} {...props} job={job} />
            ))}
          </List>
        </section>
      )}
    </>
  );
}

/** The checks of the place's lists that are made on the ground: to be thought of before the car is down. */
function Ground({ setup, here }: PlacePart) {
  const checks = checksOf([...here.repair.filter((job) => job.safety_critical), ...here.inspect], setup);
  const ground = checks.filter((one) => one.at === "ground");
  if (ground.length === 0) return null;
  return (
    <section>
      <SectionHeader id="place-ground" title={words.ground} />
      <List labelledBy="place-ground">
        {ground.map((one) => (
          <CheckLine key={one.check} title={looks.named(one.check)} />
        ))}
      </List>
    </section>
  );
}

function Done(props: PlacePart) {
  const { done } = props.here;
  const folded = useOpen();
  if (done.length === 0) return null;
  return (
    <section>
      <button type="button" class="button quiet" aria-expanded={folded.isOpen} onClick={folded.toggle}>
        {words.done(done.length)}
      </button>
      {folded.isOpen && (
        <List>
          {done.map((job) => (
            <JobRow key={job.job} {...props} job={job} />
          ))}
        </List>
      )}
    </section>
  );
}
