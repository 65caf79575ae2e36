/** Lets a person in: a link that is shown, read by a camera or sent, and that works once. */

import { useState } from "preact/hooks";
import type { Actions, Invited } from "../../flow/model";
import type { EventSetup } from "../../kit/api";
import { ProblemLine } from "../bits/Problem";
import { usePending } from "../bits/usePending";
import { Codes } from "../handover/Codes";
import "../handover/handover.css";
import { common } from "../words/common";
import { setup as words } from "../words/setup";

interface InviteProps {
  /** People as they are in force: nobody else can be let in. */
  people: EventSetup["people"];
  invitePerson: Actions["invitePerson"];
}

export function Invite({ people, invitePerson }: InviteProps) {
  const [person, setPerson] = useState("");
  const [made, setMade] = useState<Invited | null>(null);
  const { busy, problem, run } = usePending();
  const name = people.find((one) => one.person === made?.person)?.name ?? "";
  return (
    <section class="sheet" aria-labelledby="invite-title">
      <h2 id="invite-title">{words.invite}</h2>
      <p class="soft">{words.inviteHow}</p>
      <label>
        <span class="label">{words.invitePerson}</span>
        <select
          value={person}
          onChange={(event) => {
            setPerson(event.currentTarget.value);
            setMade(null);
          }}
        >
          <option value="">{common.choose}</option>
          {people.map((one) => (
            <option key={one.person} value={one.person}>
              {one.name}
            </option>
          ))}
        </select>
      </label>
      <button
        type="button"
        class="button"
        disabled={busy || person === ""}
        onClick={() => run(async () => setMade(await invitePerson(person)))}
      >
        {words.inviteDo}
      </button>
      <ProblemLine text={problem} />
      <div role="status" class="stack problem">
        {made && <InvitedShown made={made} name={name} />}
      </div>
    </section>
  );
}

/** A link that was made: to be read by a camera, or sent. */
export function InvitedShown({ made, name }: { made: Invited; name: string }) {
  return (
    <>
      <p>{words.invited(name)}</p>
      <p class="long strong">{made.link}</p>
      <Codes codes={[made.drawn]} />
    </>
  );
}
