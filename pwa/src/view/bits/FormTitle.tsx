/** The heading of a form that just opened: it comes into sight and takes the focus, so that nobody searches for it. */

import { useEffect, useRef } from "preact/hooks";

export function FormTitle({ id, text }: { id: string; text: string }) {
  const title = useRef<HTMLHeadingElement>(null);
  useEffect(() => {
    title.current?.focus({ preventScroll: true });
    title.current?.scrollIntoView({ block: "start" });
  }, []);
  return (
    <h3 id={id} ref={title} tabIndex={-1} class="form-title">
      {text}
    </h3>
  );
}
