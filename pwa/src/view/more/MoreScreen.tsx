/** All screens that a person's roles use, but for those of the tabs, or of the side bar where there is one. */

import type { ScreenProps } from "../screen";
import { sideOf, tabsOf } from "../shell/destinations";
import { useWide } from "../shell/useWide";
import { ICONS, type IconName } from "../ui/icons";
import { Icon } from "../ui/Icon";
import { List, Row, SectionHeader } from "../ui/Row";
import { more as words } from "../words/more";
import "./more.css";
import { groupsFor } from "./groups";

export function MoreScreen({ state }: ScreenProps) {
  const roles = state.identity?.roles ?? [];
  const kind = { school: state.setup?.kind === "school", several: (state.setup?.cars.length ?? 0) > 1 };
  const inSight = new Set((useWide() ? sideOf : tabsOf)(roles).map((one) => one.id));
  return (
    <div class="more">
      <h1 class="unseen">{words.title}</h1>
      {groupsFor(roles, kind).map(({ group, screens }) => (
        <section key={group} aria-labelledby={`more-${group}`}>
          <SectionHeader id={`more-${group}`} title={words.groups[group] ?? group} />
          <List labelledBy={`more-${group}`}>
            {screens
              .filter((screen) => !inSight.has(screen))
              .map((screen) => (
                <Lead key={screen} screen={screen} />
              ))}
          </List>
        </section>
      ))}
    </div>
  );
}

function Lead({ screen }: { screen: string }) {
  const [title = screen, about] = words.about[screen] ?? [];
  return <Row title={title} meta={about} photo={<Icon name={iconOf(screen)} />} href={`#/${screen}`} />;
}

/** The screens whose icon has another name. */
const DRAWN: Record<string, IconName> = {
  round: "walk",
  incidents: "caution",
  plan: "queue",
  team: "queue",
  board: "car",
  briefing: "note",
  arrival: "unknown",
  readings: "tool",
  lives: "season",
  turn: "person",
  statement: "documents",
  walk: "walk",
  aside: "caution",
  codes: "code",
  looks: "check",
  passes: "inspect",
  retired: "caution",
  me: "person",
  about: "note",
};

const iconOf = (screen: string): IconName => DRAWN[screen] ?? (screen in ICONS ? (screen as IconName) : "forward");
