/** What the paper of a signed walk says, in words. Pure. */

import type { EventSetup } from "../../kit/api";
import { language, locale, setApart } from "../../kit/language";
import { longDay, msOf } from "../../kit/time";
import type { LocalEntry } from "../../report/local_entry";
import type { EffectiveReport } from "../../report/effective";
import { entriesOf } from "../../report/lists";
import { CORNERS, FLUIDS, type Fluid, type View, VIEWS } from "../../report/walk_list";
import type { PaperPhoto, PaperSigner, PaperSize, WalkPaper } from "../../report/walk_paper";
import { marksOf, type SignedWalk, walkOut, walksOf } from "../../report/walks";
import { componentLabel, conditionLabel, personName, timeOf, zoneLabel } from "../labels";
import { common } from "../words/common";
import { walk as words } from "../words/walk";

/** "15 May 2026" of an instant in the event's zone, in the language that is spoken. */
export function dayOf(setup: EventSetup, at: string): string {
  const ms = msOf(at);
  return ms === null ? at : longDay(locale(), setup.timezone, ms);
}

/** Return the paper of a walk; a return stands beside the walk out before it. */
export function paperOf(entries: LocalEntry[], setup: EventSetup, walk: SignedWalk, size: PaperSize): WalkPaper {
  const kind = walk.data.walk;
  const walks = walksOf(entriesOf(entries), walk.car);
  const out = kind === "return" ? walkOut(walks, walk) : null;
  const when = `${dayOf(setup, walk.at)}, ${timeOf(setup, walk.at)}`;
  const { pdf } = words;
  const list = (title: string, of: SignedWalk) => ({
    title,
    none: pdf.none,
    zones: zonesOf(marksOf(entries, of), setup),
  });
  const note = walk.data.note ?? "";
  return {
    name: `${kind === "out" ? "hand-over" : "return"}-car-${walk.car}-${walk.at.slice(0, 10)}`,
    size,
    lang: language(),
    title: pdf.title[kind],
    facts: factsOf(setup, walk, out, when),
    terms: [kind === "out" ? words.signOut : words.signReserve, words.record],
    marks: [list(pdf.marks[kind], walk), ...(out ? [list(pdf.wasThere, out)] : [])],
    tables: [
      { title: pdf.figures, rows: figuresOf(walk, out) },
      { title: pdf.fluids, rows: fluidsOf(walk) },
      { title: pdf.kit, rows: kitOf(walk) },
    ].filter(({ rows }) => rows.length > 0),
    photos: {
      title: pdf.photos,
      columns: out ? [words.before, words.now] : null,
      views: VIEWS.map((view) => viewOf(walk, out, view)),
    },
    signed: { title: pdf.signatures, signers: (walk.data.signed ?? []).map(signerOf) },
    note: note === "" ? null : { title: pdf.note, text: note },
    foot: pdf.foot(walk.car, setup.name, when),
    page: pdf.page,
    labelled: pdf.labelled,
    missing: pdf.notHere,
  };
}

function factsOf(setup: EventSetup, walk: SignedWalk, out: SignedWalk | null, when: string): [string, string][] {
  const { pdf } = words;
  const terms = (setup.agreements ?? []).find((one) => one.agreement === walk.data.agreement);
  const before = out && `${words.kind.out}, ${dayOf(setup, out.at)}, ${timeOf(setup, out.at)}`;
  const facts: [string, string | null | undefined][] = [
    [pdf.car, walk.car],
    [pdf.event, setup.name],
    [pdf.agreement, walk.data.agreement],
    [pdf.customer, terms?.customer],
    [pdf.when, when],
    [pdf.by, personName(setup, walk.person)],
    [pdf.comparedWith, before],
    [pdf.id, walk.id],
  ];
  return facts.flatMap(([label, value]): [string, string][] => (value ? [[label, value]] : []));
}

function zonesOf(marks: EffectiveReport[], setup: EventSetup) {
  const map = setup.car_map;
  const zones = new Map<string, { text: string; photos: PaperPhoto[] }[]>();
  for (const { body } of marks) {
    const zone = zoneLabel(map, body.zone);
    const findings = body.findings.map(({ component, condition }) =>
      common.partSaid(componentLabel(map, component), conditionLabel(condition)),
    );
    const text = [findings.join(", ") || conditionLabel("unknown"), body.note].filter(Boolean).join(". ");
    const photos = body.photos.map((photo, at) => ({
      photo,
      caption: `${zone}, ${at + 1}`,
      why_none: "",
      before: null,
    }));
    zones.set(zone, [...(zones.get(zone) ?? []), { text, photos }]);
  }
  return [...zones].map(([zone, said]) => ({ zone, marks: said }));
}

function figuresOf(walk: SignedWalk, out: SignedWalk | null): [string, string][] {
  const { pdf } = words;
  const km = (of: SignedWalk | null) =>
    of?.data.odometer_km == null ? null : `${setApart(String(Number(of.data.odometer_km)))} km`;
  const fuel = (of: SignedWalk | null) => (of?.data.fuel_percent == null ? null : words.percent(of.data.fuel_percent));
  const rows: [string, string | null, string | null][] = [
    [words.odometer, km(walk), km(out)],
    [words.fuel, fuel(walk), fuel(out)],
    ...CORNERS.map((place): [string, string | null, string | null] => [
      pdf.tread(place),
      mmAt(walk, "tread", place),
      mmAt(out, "tread", place),
    ]),
    ...CORNERS.map((place): [string, string | null, string | null] => [
      pdf.pads(place),
      mmAt(walk, "pads", place),
      mmAt(out, "pads", place),
    ]),
  ];
  return rows.map(([label, now, was]) => [
    label,
    was === null ? (now ?? pdf.figureNone) : pdf.was(now ?? pdf.figureNone, was),
  ]);
}

function mmAt(walk: SignedWalk | null, what: "tread" | "pads", place: string): string | null {
  const found = walk?.data[what]?.find((one) => one.place === place);
  return found ? words.mm(Number(found.mm)) : null;
}

function fluidsOf(walk: SignedWalk): [string, string][] {
  const label = (fluid: string) =>
    (FLUIDS as readonly string[]).includes(fluid) ? words.fluid[fluid as Fluid] : fluid;
  return (walk.data.fluids ?? []).map(({ fluid, level }) => [label(fluid), words.level[level]]);
}

function kitOf(walk: SignedWalk): [string, string][] {
  return (walk.data.kit ?? []).map(({ item, aboard }) => [item, aboard ? words.aboard : words.missing]);
}

function viewOf(walk: SignedWalk, out: SignedWalk | null, view: View): PaperPhoto {
  const caption = `${VIEWS.indexOf(view) + 1}. ${words.view[view]}`;
  return { caption, ...saidOf(walk, view), before: out && saidOf(out, view) };
}

function saidOf(walk: SignedWalk, view: View): { photo: string | null; why_none: string } {
  const said = walk.data.photos?.find((one) => one.view === view);
  const photo = said?.photo ?? null;
  return { photo, why_none: photo === null ? words.pdf.noPhoto(said?.why_none || words.notYet.toLowerCase()) : "" };
}

function signerOf(said: NonNullable<SignedWalk["data"]["signed"]>[number]): PaperSigner {
  const { side, name, photo = null } = said;
  const how = said.how ?? "on-screen";
  const typed = how === "on-screen" && photo === null;
  return { side: words.pdf.side[side], name, how: words.pdf.how[typed ? "typed" : how], photo };
}
