/** What goes wrong, by chance. A history has some kinds of trouble and lacks others, so that each is met alone, too. */

import type { History } from "./history";
import { FAIR, type Weather } from "./network";
import type { Phone } from "./phone";

const MINUTE = 60_000;

/** A kind of trouble: how often it comes on average, in ms, and what it does. */
interface Trouble {
  every_ms: number;
  /** Share of histories that have it. */
  share: number;
  strike: (history: History) => void;
}

const anyPhone = ({ chance, phones }: History): Phone => chance.one(phones);

function weatherOf({ chance }: History): Weather {
  const bad = () => (chance.happens(0.4) ? chance.number() * 0.4 : 0);
  return {
    isUp: chance.happens(0.8),
    loses: bad(),
    doubles: bad(),
    tears: bad(),
    portal: chance.happens(0.15) ? 0.5 : 0,
    longest_ms: chance.one([50, 400, 3_000, 15_000]),
  };
}

export const TROUBLES: Record<string, Trouble> = {
  weather: { every_ms: 0.7 * MINUTE, share: 0.8, strike: (history) => setWeather(history, anyPhone(history)) },
  "no signal at all": { every_ms: 3 * MINUTE, share: 0.4, strike: noSignal },
  "phone killed": { every_ms: 2 * MINUTE, share: 0.6, strike: killPhone },
  "phone hidden": { every_ms: 2 * MINUTE, share: 0.5, strike: hidePhone },
  "phone full": { every_ms: 3 * MINUTE, share: 0.3, strike: fillPhone },
  "phone's clock": { every_ms: 4 * MINUTE, share: 0.4, strike: setClock },
  "server killed": { every_ms: 3 * MINUTE, share: 0.5, strike: killServer },
  "server full": { every_ms: 3 * MINUTE, share: 0.3, strike: fillServer },
  "server's clock": { every_ms: 3 * MINUTE, share: 0.3, strike: setServersClock },
  "new set-up": { every_ms: 3 * MINUTE, share: 0.4, strike: newSetup },
  "shut out": { every_ms: 3 * MINUTE, share: 0.4, strike: shutOut },
  review: { every_ms: 2 * MINUTE, share: 0.5, strike: review },
  backup: { every_ms: 3 * MINUTE, share: 0.4, strike: (history) => void (history.van.isUp && history.backup()) },
  "server lost": { every_ms: 4 * MINUTE, share: 0.35, strike: (history) => history.lose() },
};

/** Have the troubles of this history come by themselves until its end. */
export function letTroublesCome(history: History): void {
  for (const [name, { every_ms, share, strike }] of Object.entries(TROUBLES)) {
    if (!history.chance.happens(share)) continue;
    history.note("trouble", name);
    const mean_ms = every_ms * history.plan.pace;
    const next = () => {
      if (history.isHealing) return;
      history.note("strikes", name);
      strike(history);
      history.clockwork.after(history.chance.wait(mean_ms), next);
    };
    history.clockwork.after(history.chance.wait(mean_ms), next);
  }
}

function setWeather(history: History, phone: Phone): void {
  phone.weather = weatherOf(history);
}

function noSignal(history: History): void {
  for (const phone of history.phones) phone.weather = { ...FAIR, isUp: false };
  history.later(history.chance.wait(2 * MINUTE), () => {
    for (const phone of history.phones) phone.weather = FAIR;
  });
}

function killPhone(history: History): void {
  const phone = anyPhone(history);
  if (history.chance.happens(0.7)) history.killSoon(phone, history.chance.whole(0, 60));
  else history.killPhone(phone);
}

function hidePhone(history: History): void {
  const phone = anyPhone(history);
  phone.show(false);
  history.later(history.chance.wait(MINUTE), () => phone.show(true));
}

function fillPhone(history: History): void {
  const phone = anyPhone(history);
  phone.disk.full = true;
  history.later(history.chance.wait(MINUTE), () => {
    phone.disk.full = false;
  });
}

function setClock(history: History): void {
  const { chance } = history;
  anyPhone(history).hardware.skew_ms = chance.one([0, 3_600_000, -3_600_000, -20_000, 86_400_000 * 400]);
}

function killServer(history: History): void {
  const { chance, van } = history;
  if (chance.happens(0.7)) van.diesAt = chance.whole(1, 45);
  else van.kill();
}

function fillServer(history: History): void {
  history.van.ask("fill", { full: true });
  history.later(history.chance.wait(MINUTE), () => void history.van.ask("fill", { full: false }));
}

function setServersClock({ chance, van }: History): void {
  van.skew_ms = chance.one([0, 3_600_000, -3_600_000, 5_000]);
}

function newSetup(history: History): void {
  history.load(history.chance.whole(0, 3));
}

function shutOut(history: History): void {
  const { van, chance } = history;
  const phone = anyPhone(history);
  const device = phone.state?.identity?.device;
  // Whoever lets others in again is not shut out here.
  if (!van.isUp || !device || phone.person === "p-vera" || chance.happens(0.3)) return;
  van.shutOut(device);
}

function review(history: History): void {
  if (!history.van.isUp) return;
  history.van.ask("review", { verdict: history.chance.one(["accepted", "discarded"]) });
  history.van.onChange();
}
