/**
 * Every component in every state, with invented content: `make dev` prints where. `?group=bars` shows one group by itself,
 * as its pictures are taken; without it, all of them in a frame as wide as a phone or a laptop, in a theme.
 */

import { type ComponentType, render } from "preact";
import { useState } from "preact/hooks";
import "../src/view/style/palette.css";
import "../src/view/style/base.css";
import "../src/view/style/controls.css";
import "../src/view/style/things.css";
import "../src/view/ui/tokens.css";
import "../src/view/ui/font.css";
import "./gallery.css";
import letters from "../src/view/ui/font/atkinson-hyperlegible-next.woff2?url";
import { Segmented } from "../src/view/ui/Choice";
import { Actions } from "./groups/actions";
import { Bars } from "./groups/bars";
import { Fields } from "./groups/fields";
import { Figures } from "./groups/figures";
import { Icons } from "./groups/icons";
import { Lists } from "./groups/lists";
import { Costs, Queue } from "./groups/screens";
import { Over } from "./groups/over";
import { Tables } from "./groups/tables";

/** Groups that stand in a page of the gallery's, and those that are a whole screen. */
const GROUPS: Record<string, ComponentType> = {
  bars: Bars,
  lists: Lists,
  figures: Figures,
  actions: Actions,
  fields: Fields,
  tables: Tables,
  icons: Icons,
};
const SCREENS: Record<string, ComponentType> = { over: Over, queue: Queue, costs: Costs };
const WIDTHS = { phone: "390px", laptop: "1280px" } as const;
const KEY = "shuntbook.theme";

function Group({ name }: { name: string }) {
  const Whole = SCREENS[name];
  if (Whole) return <Whole />;
  const Shown = GROUPS[name];
  return (
    <main class="gallery-page">
      <h1>{name}</h1>
      {Shown && <Shown />}
    </main>
  );
}

type Width = keyof typeof WIDTHS;
type Theme = "day" | "dark" | "night" | "contrast";

/** Dark is the phone's own choice, not one of the app's: the frame is told to take it for so. */
function wear(theme: Theme): void {
  if (theme === "dark") localStorage.removeItem(KEY);
  else localStorage.setItem(KEY, theme);
}

/** Have the styles for a dark phone hold on a light one. */
function darken(): void {
  const rules = [...document.styleSheets].flatMap((sheet) => [...sheet.cssRules]);
  for (const rule of rules) {
    const isDark = rule instanceof CSSMediaRule && rule.media.mediaText.includes("prefers-color-scheme: dark");
    if (isDark && !rule.media.mediaText.includes("contrast")) rule.media.mediaText = "screen";
  }
}

const options = <V extends string>(...values: V[]) => values.map((value) => ({ value, label: value }));

function Gallery() {
  const [width, setWidth] = useState<Width>("phone");
  const [theme, setTheme] = useState<Theme>("day");
  const [group, setGroup] = useState("queue");

  const choose = (next: Theme) => {
    wear(next);
    setTheme(next);
  };
  const frame = (node: HTMLIFrameElement | null) => {
    if (!node) return;
    node.style.width = WIDTHS[width];
  };
  return (
    <main class="gallery-page">
      <h1>Components</h1>
      <Segmented
        legend="Group"
        options={options(...Object.keys(GROUPS), ...Object.keys(SCREENS))}
        value={group}
        onChange={setGroup}
      />
      <Segmented legend="Theme" options={options("day", "dark", "night", "contrast")} value={theme} onChange={choose} />
      <Segmented legend="Width" options={options("phone", "laptop")} value={width} onChange={setWidth} />
      <iframe
        key={`${theme} ${group}`}
        class="gallery-frame"
        title={group}
        src={`?group=${group}&theme=${theme}`}
        ref={frame}
      />
    </main>
  );
}

async function begin(): Promise<void> {
  // A visit that came without the font keeps the fallback; here what is looked at are the letters themselves.
  document.fonts.add(await new FontFace("Atkinson Hyperlegible Next", `url(${letters})`, { weight: "200 800" }).load());
  const place = document.getElementById("app");
  const query = new URLSearchParams(location.search);
  const group = query.get("group");
  if (group === null) wear("day");
  if (query.get("theme") === "dark") darken();
  if (place) render(group === null ? <Gallery /> : <Group name={group} />, place);
  document.documentElement.dataset.drawn = "yes";
}

void begin();
