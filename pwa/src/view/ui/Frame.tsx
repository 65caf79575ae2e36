/** Where the parts of a screen stand: bars at the top, dock and tabs at the thumb, the side bar where there is room. */

import type { ComponentChildren } from "preact";
import "./frame.css";

interface FrameProps {
  bar: ComponentChildren;
  strip?: ComponentChildren;
  /** The screen itself, between the bars. */
  children: ComponentChildren;
  /** From 900 px on beside the children: what the list's chosen row is. */
  detail?: ComponentChildren;
  message?: ComponentChildren;
  dock?: ComponentChildren;
  tabs?: ComponentChildren;
  side?: ComponentChildren;
}

/** Bars stay in sight; what is between them scrolls with the page. */
export function Frame({ bar, strip, children, detail, message, dock, tabs, side }: FrameProps) {
  return (
    <div class={side ? "ui-frame with-side" : "ui-frame"}>
      {side}
      <div class="ui-frame-page">
        <div class="ui-frame-top">
          {bar}
          {strip}
        </div>
        <main class={detail ? "ui-frame-main with-detail" : "ui-frame-main"}>
          <div>{children}</div>
          {detail && <div>{detail}</div>}
        </main>
        <div class="ui-frame-foot">
          {message}
          {dock}
          {tabs}
        </div>
      </div>
    </div>
  );
}
