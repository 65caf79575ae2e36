/** A task in a list: when, what, and how long with whom. */

import type { ComponentChildren } from "preact";

interface TaskLinesProps {
  when: string;
  what: ComponentChildren;
  /** What is not there is left out. */
  how: (string | false | undefined)[];
}

export function TaskLines({ when, what, how }: TaskLinesProps) {
  return (
    <>
      <span class="task-when">{when}</span>
      <span class="task-lines">
        <span class="task-what">{what}</span>
        <span class="task-how soft">{how.filter(Boolean).join(" · ")}</span>
      </span>
    </>
  );
}
