/** A part by the name that the rate table gives it. */

import type { EventSetup } from "../../kit/api";

export const partName = (setup: EventSetup, part: string) =>
  setup.parts.find((one) => one.part === part)?.description || part.replaceAll("-", " ");
