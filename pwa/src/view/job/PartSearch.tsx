/** One of the rate table's parts, by some letters of its words or its number: the list of all is too long to scroll in gloves. */

import { useId, useState } from "preact/hooks";
import type { EventSetup } from "../../kit/api";
import { partsFound } from "../../report/parts_found";
import { job as words } from "../words/job";

/** More than these are not read: a letter more finds it sooner. */
const IN_SIGHT = 6;

interface PartSearchProps {
  parts: EventSetup["parts"];
  onPick: (part: string) => void;
}

export function PartSearch({ parts, onPick }: PartSearchProps) {
  const [typed, setTyped] = useState("");
  const id = useId();
  const found = partsFound(parts, typed);
  const left = found.length - IN_SIGHT;
  const pick = (part: string) => {
    setTyped("");
    onPick(part);
  };
  return (
    <search class="stack">
      <label>
        <span class="label">{words.otherPart}</span>
        <input
          type="search"
          value={typed}
          placeholder={words.partHint}
          autocomplete="off"
          aria-describedby={id}
          onInput={(event) => setTyped(event.currentTarget.value)}
        />
      </label>
      {found.slice(0, IN_SIGHT).map(({ part, description }) => (
        <button key={part} type="button" class="button" onClick={() => pick(part)}>
          {words.addPart(description || part)}
        </button>
      ))}
      <p class="soft" id={id} role="status">
        {typed.trim() !== "" && found.length === 0 && words.noSuchPart}
        {left > 0 && words.moreFound(left)}
      </p>
    </search>
  );
}
