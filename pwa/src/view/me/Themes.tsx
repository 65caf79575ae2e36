/** How the app looks on this phone: four themes by name. */

import { useState } from "preact/hooks";
import { OneOf } from "../bits/Chips";
import { ProblemLine } from "../bits/Problem";
import { eyes as words } from "../words/eyes";
import { chooseTheme, shownTheme, THEMES, type Theme } from "./theme";

export function Themes() {
  const [theme, setTheme] = useState(shownTheme);
  const [refused, setRefused] = useState(false);
  const pick = (next: Theme) => {
    const kept = chooseTheme(next);
    setRefused(!kept);
    setTheme(shownTheme());
  };
  return (
    <section class="sheet" aria-label={words.title}>
      <OneOf
        legend={words.title}
        value={theme}
        options={THEMES.map((value) => ({ value, label: words.theme[value] }))}
        onPick={pick}
      />
      <p class="soft">{words.about[theme]}</p>
      <ProblemLine text={refused ? words.refused : null} />
    </section>
  );
}
