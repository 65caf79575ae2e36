/** Before a walk: which one, under which agreement, what runs out on the car, and the walks that were signed. */

import { beginWalk, type WalkDraft } from "../../report/walk_draft";
import { agreementFor, walkOut, walksOf } from "../../report/walks";
import { personName, timeOf } from "../labels";
import { Dated } from "../readings/Dated";
import type { CarScreen } from "../screen";
import { walk as words } from "../words/walk";
import { PaperMaker } from "./PaperMaker";
import { dayOf } from "./paper";
import type { Walk } from "./useWalk";
import { entriesOf } from "../../report/lists";

export function Begin(props: CarScreen & { walk: Walk }) {
  const { state, setup, car, walk } = props;
  const entries = entriesOf(state.entries);
  const walks = walksOf(entries, car);
  const out = walkOut(walks);
  const agreement = agreementFor(setup, car);
  const noAgreement = setup.agreements ? "none" : "withheld";
  const begin = (kind: WalkDraft["walk"]) => {
    const had = kind === "return" && out ? (out.data.kit ?? []).map((one) => one.item) : [];
    const kit = had.length > 0 ? had : null;
    walk.change(beginWalk({ walk: kind, agreement, team: state.identity?.name ?? "", kit }));
    window.scrollTo(0, 0);
  };
  const isOut = walks.at(-1)?.data.walk === "out";
  return (
    <>
      <p>{words.what}</p>
      <p class="soft">
        {agreement ? words.agreement(agreement.agreement, agreement.customer) : words.noAgreement[noAgreement]}
      </p>
      {walk.undoes !== null && (
        <div class="row" role="status">
          <span>{words.givenUp}</span>
          <button type="button" class="button" onClick={walk.undo}>
            {words.giveUpUndo}
          </button>
        </div>
      )}
      <button type="button" class={isOut ? "button wide" : "button main wide"} onClick={() => begin("out")}>
        {words.dutyOut}
      </button>
      <button type="button" class={isOut ? "button main wide" : "button wide"} onClick={() => begin("return")}>
        {words.dutyReturn}
      </button>
      {!out && <p class="soft">{words.noOut}</p>}
      <Dated setup={setup} car={car} now_ms={state.now} />
      <section class="stack" aria-labelledby="walks-title">
        <h2 id="walks-title">{words.signedWalks}</h2>
        {walks.length === 0 && <p>{words.noWalks}</p>}
        {walks.toReversed().map((one) => (
          <section key={one.id} class="sheet" aria-label={words.kind[one.data.walk]}>
            <p class="strong">
              {words.walkLine(
                one.data.walk,
                `${dayOf(setup, one.at)}, ${timeOf(setup, one.at)}`,
                personName(setup, one.person),
              )}
            </p>
            <PaperMaker {...props} walk={one} />
          </section>
        ))}
      </section>
    </>
  );
}
