/** First line of every screen: which event and car, what is waiting on this phone, who uses it. */

import type { Actions, AppState } from "../../flow/model";
import { Icon } from "../bits/Icon";
import { lazy } from "../bits/lazy";
import { useOpen } from "../bits/useOpen";
import { carLabel } from "../labels";
import { common } from "../words/common";

const People = lazy(async () => (await import("./People")).People);

export function Head({ state, actions }: { state: AppState; actions: Actions }) {
  const { setup, car, identity } = state;
  const people = useOpen();
  return (
    <header class="head">
      <a class="skip button" href={`#/${state.route.screen}`} onClick={skip}>
        {common.skip}
      </a>
      {setup && car !== null && setup.cars.length > 1 ? (
        <label>
          <span class="unseen">{common.cars}</span>
          <select value={car} onChange={(event) => actions.chooseCar(event.currentTarget.value)}>
            {setup.cars.map((one) => (
              <option key={one.car} value={one.car}>
                {carLabel(one)}
              </option>
            ))}
          </select>
        </label>
      ) : (
        <span class="strong">{car === null ? common.app : common.car(car)}</span>
      )}
      <span class="row">
        {state.attention > 0 && (
          <a class="tag alarm" href="#/reports">
            <Icon name="attention" />
            {common.attentionCount(state.attention)}
          </a>
        )}
        {state.waiting + state.waiting_photos > 0 && (
          <span class="tag">
            <Icon name="waiting" />
            {common.waitingCount(state.waiting + state.waiting_photos)}
          </span>
        )}
        {identity && state.identities.length > 1 && (
          <button
            type="button"
            class="button who"
            aria-expanded={people.isOpen}
            aria-label={common.whoNow(identity.name)}
            onClick={people.toggle}
          >
            <Icon name="me" />
            {identity.name}
          </button>
        )}
      </span>
      {people.isOpen && <People state={state} actions={actions} onDone={people.close} />}
    </header>
  );
}

// The hash is the route, so the link cannot jump by itself.
function skip(event: Event): void {
  event.preventDefault();
  document.getElementById("screen")?.focus();
}
