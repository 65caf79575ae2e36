/** What the season teaches, for the manager: damage, minutes, better rates, what to carry. */

import { useState } from "preact/hooks";
import type { SeasonAnswers } from "../../flow/model";
import { OneOf } from "../bits/Chips";
import { heardAt } from "../labels";
import { LivesList } from "../lives/LivesList";
import type { CarScreen } from "../screen";
import { season as words } from "../words/season";
import { BetterRates } from "./BetterRates";
import { Ahead, Carry } from "./Carry";
import { Damage } from "./Damage";
import { COVERS, type Cover } from "./layout";
import { Minutes } from "./Minutes";
import { Shopping } from "./Shopping";
import "./season.css";

type Section = keyof typeof words.sections;
const SECTIONS = Object.keys(words.sections) as Section[];
const NOTHING: SeasonAnswers = { season: null, observed: null, spares: null };

export function SeasonScreen(props: CarScreen) {
  const [section, setSection] = useState<Section>("damage");
  const [cover, setCover] = useState<Cover>(95);
  const manager = props.state.identity?.roles.includes("manager");
  return (
    <div class="stack">
      <h1>{words.title}</h1>
      {!manager && <p>{words.onlyManager}</p>}
      {manager && (
        <>
          <OneOf
            legend={words.show}
            value={section}
            options={SECTIONS.map((value) => ({ value, label: words.sections[value] }))}
            onPick={setSection}
          />
          {section === "damage" || section === "minutes" ? (
            <Looking {...props} section={section} />
          ) : section === "lives" ? (
            <LivesList {...props} costs />
          ) : section === "rates" ? (
            <Rates {...props} />
          ) : (
            <Packing {...props} section={section} cover={cover} onCover={setCover} />
          )}
        </>
      )}
    </div>
  );
}

function Looking({ state, setup, section }: CarScreen & { section: "damage" | "minutes" }) {
  const { season } = state.season ?? NOTHING;
  if (!season) return <p>{words.none}</p>;
  return (
    <>
      <HeardLine state={state} setup={setup} at={season.heard_at} />
      {section === "damage" && <Damage season={season.answer} />}
      {section === "minutes" && <Minutes season={season.answer} setup={setup} />}
    </>
  );
}

function Rates({ state, setup, actions }: CarScreen) {
  const { observed } = state.season ?? NOTHING;
  if (!observed) return <p>{words.none}</p>;
  return (
    <>
      <HeardLine state={state} setup={setup} at={observed.heard_at} />
      <BetterRates observed={observed.answer} setup={setup} acceptRates={actions.acceptRates} />
    </>
  );
}

interface PackingProps extends CarScreen {
  section: "carry" | "shopping";
  cover: Cover;
  onCover: (cover: Cover) => void;
}

function Packing({ state, setup, actions, section, cover, onCover }: PackingProps) {
  const { spares } = state.season ?? NOTHING;
  // Where only counts are shown there is no stock to choose a cover for.
  const advises = spares !== null && spares.answer.model !== "counts";
  return (
    <>
      {spares && <HeardLine state={state} setup={setup} at={spares.heard_at} />}
      {advises && (
        <OneOf
          legend={words.carry.cover}
          value={String(cover)}
          options={COVERS.map((one) => ({ value: String(one), label: words.carry.percent(one) }))}
          onPick={(picked) => onCover(COVERS.find((one) => String(one) === picked) ?? 95)}
        />
      )}
      {section === "carry" && <Ahead key={setup.event} spares={spares?.answer ?? null} askSpares={actions.askSpares} />}
      {!spares && <p>{words.carry.none}</p>}
      {spares && section === "carry" && <Carry spares={spares.answer} cover={cover} />}
      {spares && !advises && section === "shopping" && <p>{words.carry.counts(spares.answer.events)}</p>}
      {spares && advises && section === "shopping" && <Shopping spares={spares.answer} cover={cover} setup={setup} />}
    </>
  );
}

function HeardLine({ state, setup, at }: Pick<CarScreen, "state" | "setup"> & { at: string }) {
  return <p class="soft">{words.heard(heardAt(setup, at, state.now))}</p>;
}
