/** The heading of a form that just opened: it comes into sight and takes the focus, so that nobody searches for it. */

import { useLayoutEffect, useRef } from "preact/hooks";

interface FormTitleProps {
  id: string;
  text: string;
  /** Under which heading the form stands: one level below it. */
  level?: 2 | 3;
}

export function FormTitle({ id, text, level = 3 }: FormTitleProps) {
  const Heading = level === 2 ? "h2" : "h3";
  const title = useRef<HTMLHeadingElement>(null);
  // Before the page is drawn: what opened the form may be hidden with it, and the focus would go to the page meanwhile.
  useLayoutEffect(() => {
    title.current?.focus({ preventScroll: true });
    title.current?.scrollIntoView({ block: "start" });
  }, []);
  return (
    <Heading id={id} ref={title} tabIndex={-1} class="form-title">
      {text}
    </Heading>
  );
}
