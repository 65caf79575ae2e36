/** Wear at each corner against stage km, and what looks like damage instead. */

import type { Entry, EventSetup } from "../../kit/api";
import { decimal } from "../../kit/language";
import { stageKm } from "../../report/driven";
import { entriesOf } from "../../report/lists";
import { byTime } from "../../report/order";
import { prefill } from "../../report/prefill";
import type { Reading } from "../../report/readings";
import { type TyreKm, tyreKm } from "../../report/tyres";
import { pointsOf, type Wear, WEARING, type WearingName, wearOf } from "../../report/wear";
import { keepDraft } from "../log/keptDraft";
import type { CarScreen } from "../screen";
import { readings as words } from "../words/readings";

const WHAT = Object.keys(WEARING) as WearingName[];

export function WearTable(props: CarScreen & { readings: Reading[] }) {
  const { state, setup, readings } = props;
  const entries = entriesOf(state.entries);
  const km_at = ({ entry }: Reading) => {
    const said = entries.find((one) => one.id === entry);
    return said ? stageKm(entries, setup, said) : 0;
  };
  const all = WHAT.map((what) => ({ what, wear: wearOf(what, pointsOf(readings, what, km_at)) }));
  const worth = all.filter(({ wear }) => wear.some((one) => one.per_100km !== null || one.jump || one.below_limit));
  return (
    <section class="stack" aria-labelledby="wear-title">
      <h2 id="wear-title">{words.wear}</h2>
      {worth.length === 0 && <p class="soft">{words.wearNone}</p>}
      {worth.map(({ what, wear }) => (
        <OneWear key={what} {...props} what={what} wear={wear} />
      ))}
      <Tyres tyres={tyreKm(readings, km_at, kmNow(entries, props))} />
    </section>
  );
}

function kmNow(entries: Entry[], { setup, car }: CarScreen): number {
  const newest = entries
    .filter((one) => one.car === car)
    .sort(byTime)
    .at(-1);
  return newest ? stageKm(entries, setup, newest) : 0;
}

function Tyres({ tyres }: { tyres: TyreKm[] }) {
  if (!tyres.length) return null;
  return (
    <section class="sheet" aria-label={words.tyres}>
      <h3>{words.tyres}</h3>
      <table class="wear">
        <thead>
          <tr>
            <th scope="col">{words.tyre_head}</th>
            <th scope="col">{words.corner_head}</th>
            <th scope="col" class="number">
              {words.tyre_km_head}
            </th>
          </tr>
        </thead>
        <tbody>
          {tyres.map(({ tyre, place, km }) => (
            <tr key={tyre}>
              <th scope="row">{tyre}</th>
              <td>{place === null ? words.tyreOff : words.corner[place]}</td>
              <td class="number">{decimal(km, 1)}</td>
            </tr>
          ))}
        </tbody>
      </table>
    </section>
  );
}

function OneWear(props: CarScreen & { what: WearingName; wear: Wear[] }) {
  const { what, wear } = props;
  return (
    <section class="sheet" aria-label={words.wearName(words.wearOf[what])}>
      <h3>{words.wearOf[what]}</h3>
      {wear.map((one) => one.jump && <Jump key={one.place} {...props} one={one} />)}
      <table class="wear">
        <thead>
          <tr>
            <th scope="col">{words.corner_head}</th>
            <th scope="col" class="number">
              {words.now_head}
            </th>
            <th scope="col" class="number">
              {words.rate_head}
            </th>
            <th scope="col" class="number">
              {words.left_head}
            </th>
          </tr>
        </thead>
        <tbody>
          {wear.map((one) => (
            <tr key={one.place}>
              <th scope="row">{words.corner[one.place]}</th>
              <td class="number">{decimal(one.mm, 1)}</td>
              <td class="number">{one.per_100km === null ? words.unknown : decimal(one.per_100km, 1)}</td>
              <td class={one.below_limit ? "number warn" : "number"}>{leftOf(one)}</td>
            </tr>
          ))}
        </tbody>
      </table>
      <p class="soft">{words.limit(WEARING[what].limit_mm)}</p>
    </section>
  );
}

const leftOf = (one: Wear): string => {
  if (one.below_limit) return words.below;
  return one.left_km === null ? words.unknown : words.km(one.left_km);
};

function Jump({ state, setup, car, actions, what, one }: CarScreen & { what: WearingName; one: Wear }) {
  const { mm, km } = one.jump ?? { mm: 0, km: 0 };
  const where = words.corner[one.place];
  const name = words.wearOf[what];
  const log = () => {
    const entries = entriesOf(state.entries);
    keepDraft(car, { ...prefill(entries, car, setup, state.now), ...damageAt(setup, what, one) });
    actions.go("/log");
  };
  return (
    <div class="stack">
      <p class="warn">{words.jump(where, name, mm, km)}</p>
      <button type="button" class="button" onClick={log}>
        {words.jumpLog(where, name)}
      </button>
    </div>
  );
}

function damageAt(setup: EventSetup, what: WearingName, { place, jump }: Wear) {
  const { part } = WEARING[what];
  const listed = setup.car_map.zones[place]?.components.includes(part) ?? false;
  const note = jump ? words.jumpNote(words.wearOf[what], jump.mm, jump.km) : "";
  return { zone: place, findings: listed ? [{ component: part, condition: "unknown" as const }] : [], note };
}
