/** The whole set, by name. */

import { Icon } from "../../src/view/ui/Icon";
import { ICONS, type IconName } from "../../src/view/ui/icons";
import { Case } from "../Case";

const NAMES = Object.keys(ICONS) as IconName[];

export function Icons() {
  return (
    <>
      <Case name="24">
        <ul class="gallery-icons">
          {NAMES.map((name) => (
            <li key={name}>
              <Icon name={name} />
              {name}
            </li>
          ))}
        </ul>
      </Case>
      <Case name="16, 20, 32" as="row">
        <Icon name="hold" size={16} />
        <Icon name="hold" size={20} />
        <Icon name="hold" size={32} />
      </Case>
    </>
  );
}
