/** The inspection of a place: one page of checks for all that waits there, one signature; or of one part alone. */

import { useRef, useState } from "preact/hooks";
import type { Job } from "../../kit/api";
import type { Identity } from "../../flow/model";
import { zoneLabel } from "../labels";
import { FormTitle } from "../bits/FormTitle";
import { Button } from "../ui/Button";
import { Banner } from "../ui/Card";
import { places as words } from "../words/places";
import { InspectForm } from "./InspectForm";
import type { PlacePart } from "./PlacePage";
import { inspectorsOf, namesText, placeHref } from "./shown";

export interface InspectProps extends PlacePart {
  /** Of the car. */
  jobs: Job[];
  /** The one part that is inspected; null for all that waits at the place. */
  component: string | null;
}

export function InspectPage(props: InspectProps) {
  const { state, setup, zone, jobs, here, component } = props;
  // What waits while the page is open must not change under a finger: a job that comes in is inspected next. After a
  // reload the queue comes a moment after the page.
  const first = useRef<Job[]>([]);
  if (first.current.length === 0) {
    first.current = component === null ? here.inspect : jobs.filter((job) => job.job === `${zone}/${component}`);
  }
  const chosen = first.current;
  const [is_signed, setSigned] = useState(false);
  const inspector = state.identity?.roles.includes("inspector") ? state.identity : null;
  if (is_signed) return <IsSigned zone={zone} name={zoneLabel(setup.car_map, zone)} />;
  return (
    <>
      <h1>{words.title(zoneLabel(setup.car_map, zone))}</h1>
      {chosen.length === 0 && <p>{words.nothing}</p>}
      {chosen.length > 0 && <Page {...props} chosen={chosen} inspector={inspector} onSigned={() => setSigned(true)} />}
    </>
  );
}

/** What came of it stands in the message, with its undo, and on the place's own page. */
const IsSigned = ({ zone, name }: { zone: string; name: string }) => (
  <>
    <FormTitle id="signed-title" level={2} text={words.signed} />
    <Button kind="primary" href={placeHref(zone)}>
      {words.toPlaceBack(name)}
    </Button>
  </>
);

interface PageProps extends InspectProps {
  chosen: Job[];
  inspector: Identity | null;
  onSigned: () => void;
}

function Page({ inspector, ...props }: PageProps) {
  if (inspector) return <InspectForm {...props} inspector={inspector} />;
  const names = namesText(inspectorsOf(props.setup), props.setup);
  return <Banner tone="caution">{names ? words.role(names) : words.nobody}</Banner>;
}
