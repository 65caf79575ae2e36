/** Why something is not in the plan, who may do it later, and what is put in the car for that. */

import type { EventSetup, LeftOut } from "../../kit/api";
import { language } from "../../kit/language";
import { partName } from "../queue/partName";
import { common } from "../words/common";
import { plan as words } from "../words/plan";
import { queue } from "../words/queue";
import { chanceOf } from "./Facts";

/**
 * The server says why in a sentence of its own; in another language than English the word for it stands, and where it
 * is the chance, which stands behind it for those who are to see it.
 */
function why(setup: EventSetup, { reason, why: kind }: LeftOut): string {
  const [said = "", ...parts] = kind === "part" ? reason.split(/: |, /) : [reason.replace(/\.$/, "")];
  const word = language() === "en" && kind !== "risk" ? undefined : words.out.why[kind];
  const sentence = word ?? `${said.charAt(0).toUpperCase()}${said.slice(1)}`;
  return parts.length > 0
    ? common.and(sentence, `${parts.map((part) => partName(setup, part)).join(", ")}.`)
    : `${sentence}.`;
}

interface LeftOutTextProps {
  setup: EventSetup;
  one: LeftOut;
  /** Whether the chance with it is told. */
  chance: boolean;
}

export function LeftOutText({ setup, one, chance }: LeftOutTextProps) {
  return (
    <>
      <p>
        <span class="strong">{why(setup, one)}</span> {words.out.to[one.to]}.
        {chance && typeof one.on_time === "number" && ` ${words.out.withIt(chanceOf(one.on_time))}`}
      </p>
      {one.put_in_car.length > 0 && (
        <p>
          {common.and(
            words.out.aboard,
            one.put_in_car.map(({ part, qty }) => queue.part(qty, partName(setup, part))).join(", "),
          )}
        </p>
      )}
      {one.tools.length > 0 && (
        <p>{common.and(words.out.tools, one.tools.map((tool) => tool.replaceAll("-", " ")).join(", "))}</p>
      )}
    </>
  );
}
