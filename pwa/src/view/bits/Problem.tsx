/** A sentence about what went wrong, spoken at once. */

/** Always on the page, so that screen readers notice when it fills. */
export function ProblemLine({ text }: { text: string | null }) {
  return (
    <div role="alert" class="problem">
      {text && <p class="warn">{text}</p>}
    </div>
  );
}
