/** Chooses the language of this phone; each is named in its own words. */

import { useId, useState } from "preact/hooks";
import { LANGUAGES, type Language, language } from "../../kit/language";
import { ProblemLine } from "../bits/Problem";
import { choose } from "../shell/language";
import { me as words } from "../words/me";

const NAMES: Record<Language, string> = { en: "English", fr: "Français" };

export function LanguageChoice() {
  const name = useId();
  const [problem, setProblem] = useState<string | null>(null);
  const pick = (one: Language) => setProblem(choose(one) ? null : words.languageNotKept);
  return (
    <section class="sheet">
      <fieldset>
        <legend>{words.language}</legend>
        <div class="chips">
          {LANGUAGES.map((one) => (
            <label class="chip" key={one}>
              <input type="radio" name={name} checked={one === language()} onChange={() => pick(one)} />
              <span lang={one}>{NAMES[one]}</span>
            </label>
          ))}
        </div>
      </fieldset>
      <p class="soft">{words.languageNote}</p>
      <ProblemLine text={problem} />
    </section>
  );
}
