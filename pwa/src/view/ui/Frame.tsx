/** Where the parts of a screen stand: bars at the top, dock and tabs at the thumb, the side bar where there is room. */

import type { ComponentChildren } from "preact";
import "./frame.css";

interface FrameProps {
  bar: ComponentChildren;
  strip?: ComponentChildren;
  /** What the screen is called and how it is found; another element for each key. */
  screen?: { key: string; id: string; label: string | undefined; class: string };
  /** Under the bars, where it scrolls away. */
  notices?: ComponentChildren;
  /** The screen itself, between the bars. */
  children: ComponentChildren;
  /** From 900 px on before the children, which are then what is chosen in it. */
  list?: ComponentChildren;
  message?: ComponentChildren;
  dock?: ComponentChildren;
  tabs?: ComponentChildren;
  side?: ComponentChildren;
}

/** Bars stay in sight; what is between them scrolls with the page. */
export function Frame({ bar, strip, screen, notices, children, list, message, dock, tabs, side }: FrameProps) {
  const beside = list ? "ui-frame-main with-detail" : "ui-frame-main";
  return (
    <div class={side ? "ui-frame with-side" : "ui-frame"}>
      {side}
      <div class="ui-frame-page">
        <div class="ui-frame-top">
          {bar}
          {strip}
        </div>
        {notices}
        <main
          key={screen?.key}
          id={screen?.id}
          class={screen ? `${beside} ${screen.class}` : beside}
          aria-label={screen?.label}
          tabIndex={screen ? -1 : undefined}
        >
          {list && <div key="list">{list}</div>}
          {/* The same element with a list and without: a phone that is turned keeps its open forms. */}
          <div key="screen" class="ui-frame-screen">
            {children}
          </div>
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
