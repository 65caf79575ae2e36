/** One place of the car: `#/place/<zone>` all that is open there, `…/inspect` its inspection, `…/inspect/<part>` of one part. */

import "../ui/tokens.css";
import "./place.css";
import { counted } from "../job/history";
import { atPlace } from "../../report/at_place";
import { entriesOf, ofCar } from "../../report/lists";
import { zoneLabel } from "../labels";
import type { CarScreen } from "../screen";
import { places as words } from "../words/places";
import { InspectPage } from "./InspectPage";
import { PlacePage } from "./PlacePage";

export function PlaceScreen(props: CarScreen) {
  const { state, setup, car } = props;
  const [zone = "", page, component] = (state.route.subject ?? "").split("/");
  const entries = ofCar(entriesOf(state.entries), car);
  const valid = counted(entries, car, setup);
  const jobs = state.queue?.answer.jobs ?? [];
  const here = atPlace(zone, jobs, valid);
  const is_known = zone in setup.car_map.zones || jobs.some((job) => job.zone === zone);
  const name = zoneLabel(setup.car_map, zone);
  if (!is_known) return <NotThere name={name} />;
  const inspecting = page === "inspect";
  return (
    <div class="place">
      {inspecting ? (
        <InspectPage {...props} {...{ zone, entries, valid, jobs, here }} component={component ?? null} />
      ) : (
        <PlacePage {...props} {...{ zone, entries, valid, here }} />
      )}
    </div>
  );
}

const NotThere = ({ name }: { name: string }) => (
  <div class="stack">
    <h1>{name}</h1>
    <p>{words.notThere}</p>
  </div>
);
