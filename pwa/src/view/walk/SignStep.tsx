/** Both sign on the screen; where the customer does not, two of the team. A typed name stands without a drawing. */

import { type DraftSignature, lackingOf, leaveOut, signersOf, viewsLeft } from "../../report/walk_draft";
import { LONGEST_NAME } from "../../report/walk_list";
import { OneOf } from "../bits/Chips";
import { ProblemLine } from "../bits/Problem";
import { usePending } from "../bits/usePending";
import { walk as words } from "../words/walk";
import { pictureOf } from "./ink";
import { WhyNone } from "./PhotosStep";
import { SignaturePad } from "./SignaturePad";
import { signedLines } from "./signing";
import type { AtStep } from "./atStep";

const HOWS = ["on-screen", "not-present", "refused"] as const;

export function SignStep(props: AtStep & { onSigned: (id: string) => void }) {
  const { draft, change, actions, setup, onSigned } = props;
  const [first] = lackingOf(draft);
  const { busy, problem, run } = usePending(first ? words.lacking[first] : null);
  const left = viewsLeft(draft);
  const alone = draft.customer.how !== "on-screen";
  const sign = () =>
    run(async () => {
      const drawn = await Promise.all(signersOf(draft).map((one) => pictureOf(one)));
      onSigned(await actions.signWalk(draft, drawn));
    });
  return (
    <>
      {left.length > 0 && (
        <section class="sheet" aria-label={words.lackViews(left.length)}>
          <p class="strong">{words.lackViews(left.length)}</p>
          <WhyNone onSay={(why) => change(leaveOut(draft, left, why), words.step.photos)} />
        </section>
      )}
      <section class="sheet" aria-labelledby="what-is-signed">
        <h3 id="what-is-signed">{words.signs.title}</h3>
        <dl class="signed-lines">
          {signedLines(draft, setup).map(([label, value]) => (
            <div key={label}>
              <dt>{label}</dt>
              <dd>{value}</dd>
            </div>
          ))}
        </dl>
      </section>
      <p>{draft.walk === "out" ? words.signOut : words.signReserve}</p>
      <p class="soft">{words.record}</p>
      <Signer {...props} who="team" title={words.team} />
      <section class="sheet" aria-labelledby="customer-title">
        <h3 id="customer-title">{words.customer}</h3>
        <Name {...props} who="customer" />
        <OneOf
          legend={words.how}
          value={draft.customer.how}
          options={HOWS.map((value) => ({ value, label: words.hows[value] }))}
          onPick={(how) => change({ ...draft, customer: { ...draft.customer, how, strokes: [] } }, words.hows[how])}
        />
        {alone ? <p>{words.aloneWhy}</p> : <Drawn {...props} who="customer" />}
      </section>
      {alone && <Signer {...props} who="witness" title={words.witness} />}
      <ProblemLine text={problem} />
      <button type="button" class="button main wide" aria-disabled={first !== undefined || busy} onClick={sign}>
        {busy ? words.signing : words.signDo}
      </button>
    </>
  );
}

type Who = "team" | "customer" | "witness";

function Signer(props: AtStep & { who: Who; title: string }) {
  const id = `${props.who}-title`;
  return (
    <section class="sheet" aria-labelledby={id}>
      <h3 id={id}>{props.title}</h3>
      <Name {...props} />
      <Drawn {...props} />
    </section>
  );
}

function Name({ draft, change, who }: AtStep & { who: Who }) {
  const put = (name: string) => change({ ...draft, [who]: { ...draft[who], name } }, words.nameOf(words[who]), true);
  return (
    <label>
      <span class="label">{words.name}</span>
      <input
        type="text"
        autocomplete="off"
        value={draft[who].name}
        maxLength={LONGEST_NAME}
        onInput={(event) => put(event.currentTarget.value)}
      />
    </label>
  );
}

function Drawn({ draft, change, who }: AtStep & { who: Who }) {
  const signature: DraftSignature = draft[who];
  const put = (strokes: number[][], what: string) => change({ ...draft, [who]: { ...signature, strokes } }, what);
  return <SignaturePad signature={signature} onChange={put} />;
}
