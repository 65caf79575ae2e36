/** French lies over English whole: every key, every function, no capture, every label of the default car map. */

import { readFileSync } from "node:fs";
import { parse } from "smol-toml";
import { expect, test } from "vitest";
import { money } from "../src/kit/money";
import { messages as said } from "../src/kit/messages";
import { laterMessages as seldom } from "../src/kit/later_messages";
import { taking } from "../src/kit/taking";
import { decimal, languageFor, speak } from "../src/kit/language";
import { ago } from "../src/kit/time";
import { symptomLabel } from "../src/view/labels";
import { french } from "../src/view/words/fr";
import { action } from "../src/view/words/fr/action";
import { carMap } from "../src/view/words/fr/car_map";
import { CHECKS } from "../src/view/words/fr/looks";
import { about, tour } from "../src/view/words/about";
import { agreements } from "../src/view/words/agreements";
import { arrival } from "../src/view/words/arrival";
import { aside } from "../src/view/words/aside";
import { board } from "../src/view/words/board";
import { briefing } from "../src/view/words/briefing";
import { common } from "../src/view/words/common";
import { costs } from "../src/view/words/costs";
import { documents } from "../src/view/words/documents";
import { eyes } from "../src/view/words/eyes";
import { guide } from "../src/view/words/guide";
import { codes, handing, handover } from "../src/view/words/handover";
import { incidents } from "../src/view/words/incidents";
import { job } from "../src/view/words/job";
import { keys } from "../src/view/words/keys";
import { lives } from "../src/view/words/lives";
import { log } from "../src/view/words/log";
import { looks } from "../src/view/words/looks";
import { me } from "../src/view/words/me";
import { more } from "../src/view/words/more";
import { notices } from "../src/view/words/notices";
import { passes } from "../src/view/words/passes";
import { people } from "../src/view/words/people";
import { place } from "../src/view/words/place";
import { places } from "../src/view/words/places";
import { plan, tasks } from "../src/view/words/plan";
import { queue } from "../src/view/words/queue";
import { readings } from "../src/view/words/readings";
import { reports } from "../src/view/words/reports";
import { retired } from "../src/view/words/retired";
import { ring } from "../src/view/words/ring";
import { round } from "../src/view/words/round";
import { season } from "../src/view/words/season";
import { service } from "../src/view/words/service";
import { setup } from "../src/view/words/setup";
import { shared } from "../src/view/words/shared";
import { shell } from "../src/view/words/shell";
import { statement } from "../src/view/words/statement";
import { team } from "../src/view/words/team";
import { told } from "../src/view/words/told";
import { turn } from "../src/view/words/turn";
import { voice } from "../src/view/words/voice";
import { walk } from "../src/view/words/walk";
import { setup as eventSetup } from "./making";

const english = {
  about,
  agreements,
  arrival,
  aside,
  board,
  briefing,
  codes,
  common,
  costs,
  documents,
  eyes,
  guide,
  handing,
  handover,
  incidents,
  job,
  keys,
  lives,
  log,
  looks,
  me,
  more,
  notices,
  passes,
  people,
  place,
  places,
  plan,
  queue,
  readings,
  reports,
  retired,
  ring,
  round,
  said,
  season,
  seldom,
  service,
  setup,
  shared,
  shell,
  statement,
  taking,
  team,
  told,
  tasks,
  tour,
  turn,
  voice,
  walk,
};

/** "log.stop.title" and so on: what there is to say, whatever it says. */
function paths(value: unknown, at = ""): string[] {
  if (typeof value !== "object" || value === null) return [`${at} ${typeof value}`];
  return Object.entries(value).flatMap(([key, one]) => paths(one, `${at}.${key}`));
}

/** Every text that needs nothing put in. */
function texts(value: unknown): string[] {
  if (typeof value === "string") return [value];
  return typeof value === "object" && value !== null ? Object.values(value).flatMap(texts) : [];
}

const { since: _, ...laid } = french;

test("French has every word that English has, and no other", () => {
  expect(paths(laid).sort()).toEqual(paths(english).sort());
});

// TypeScript can't see a forgotten key where English is a `Record<string, string>`: the test above does.
test("no word promises that a car is safe or clear", () => {
  const said = texts(french).concat(Object.values(carMap)).join("\n");
  expect(said.match(/.*\b(sûre?s?|sécurité|danger)\b.*/giu)).toBeNull();
});

test("colons and other tall marks keep to the word before them", () => {
  const breaking = texts(french)
    .concat(Object.values(carMap))
    .filter((text) => / [:;!?]/.test(text));
  expect(breaking).toEqual([]);
});

/** What the package brings, and what events that began before that keep. */
function packaged(file: string) {
  const folders = ["", "v0.1/"].map((one) => new URL(`../../api/shuntbook/defaults/${one}${file}`, import.meta.url));
  return folders.map((url) => parse(readFileSync(url, "utf8")));
}

test("the default car map has French for every label and every sentence that stops the car", () => {
  const maps = packaged("car_map.toml") as unknown as Record<
    string,
    Record<string, { label: string; stop?: string }>
  >[];
  const said = maps.flatMap((map) =>
    ["zones", "components", "symptoms"].flatMap((part) => Object.values(map[part] ?? {})),
  );
  const wanted = said.flatMap((one) => [one.label, ...(one.stop ? [one.stop] : [])]);
  expect(wanted.length).toBeGreaterThan(150);
  expect(wanted.filter((text) => !carMap[text])).toEqual([]);
  expect(Object.keys(carMap).filter((text) => !wanted.includes(text))).toEqual([]);
});

test("the usual check lists have French for every check, and no more", () => {
  const rows = packaged("looks.toml").flatMap((one) => one.looks as { group: string; check: string }[]);
  const wanted = (of: (row: (typeof rows)[number]) => string) => [...new Set(rows.map(of))].sort();
  expect(Object.keys(CHECKS).sort()).toEqual(wanted((row) => row.check));
  expect(Object.keys(looks.group).sort()).toEqual(wanted((row) => row.group));
});

test("the first language that the app knows is spoken, a choice before all", () => {
  expect(languageFor(null, ["de-AT", "fr-CA", "en"])).toBe("fr");
  expect(languageFor("en", ["fr"])).toBe("en");
  expect(languageFor(null, [])).toBe("en");
  expect(languageFor("klingon", ["de"])).toBe("en");
});

test("laid over, the objects that screens hold speak French, numbers and money too", () => {
  const held = common.condition;
  expect(money("-1234.50", "EUR")).toBe("−1,234.50 EUR");
  speak("fr", french);
  expect(log.title).toBe("Noter un choc");
  expect(held.cracked).toBe("Fissure");
  expect(symptomLabel({ ...eventSetup().car_map, symptoms: {} }, "odd-noise")).toBe("odd noise");
  expect([service.left(1), service.left(2)]).toEqual(["reste 1 minute", "restent 2 minutes"]);
  expect([round.save(0), round.save(1), round.save(2)].map((said) => said.replace(/\D/g, ""))).toEqual(["", "1", "2"]);
  expect(me.missing("Maru", "d", [3, 4])).toContain("les numéros 3 et 4");
  expect(ago(0, 240_000)).toBe("il y a 4 min");
  expect(decimal(6.1, 1)).toBe("6,1");
  expect(money("-1234.50", "EUR")).toBe("−1\u00a0234,50 EUR");
});

test("every action of the sample's rate table has French, and so have a look and what has no row", () => {
  const table = readFileSync(
    new URL("../../sample_reports/thornquell-2026/rates/operations.csv", import.meta.url),
    "utf8",
  );
  const [head, ...rows] = table.trim().split("\n");
  const column = head?.split(",").indexOf("action") ?? -1;
  const actions = new Set(["inspect", "assess", ...rows.map((row) => row.split(",")[column] ?? "")]);
  expect(actions.size).toBeGreaterThan(10);
  const english = [...actions].filter(
    (name) => action(name) === name[0]?.toUpperCase() + name.slice(1).replaceAll("-", " "),
  );
  expect(english).toEqual([]);
});
