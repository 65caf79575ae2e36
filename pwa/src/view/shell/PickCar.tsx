/** Asks once which car this phone is with; afterwards the head line shows it and can change it. */

import type { Actions } from "../../flow/model";
import type { EventSetup } from "../../kit/api";
import { carLabel } from "../labels";
import { common } from "../words/common";

export function PickCar({ setup, actions }: { setup: EventSetup; actions: Actions }) {
  return (
    <div class="stack">
      <h1>{common.whichCar}</h1>
      {setup.cars.map((one) => (
        <button key={one.car} type="button" class="button main" onClick={() => actions.chooseCar(one.car)}>
          {carLabel(one)}
        </button>
      ))}
    </div>
  );
}
