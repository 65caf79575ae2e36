/** Narrows a list to what has some letters. Where there is a keyboard only: a phone's list has its places as headers. */

import { common } from "../words/common";

interface ListSearchProps {
  typed: string;
  /** Nothing in the list has what is typed. */
  none: boolean;
  onType: (typed: string) => void;
}

export function ListSearch({ typed, none, onType }: ListSearchProps) {
  return (
    <search class="list-search">
      <input
        type="search"
        value={typed}
        aria-label={common.search}
        placeholder={common.search}
        onInput={(event) => onType(event.currentTarget.value)}
      />
      <p role="status">{none && common.noneFound}</p>
    </search>
  );
}
