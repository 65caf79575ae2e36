import type { Live, LiveDeps } from "../sync/live";

/** The stream of news is loaded beside the first screen; where it can't be had there is no server either, and the next look tries again. */
export function lateLive(deps: LiveDeps): Live {
  let live: Live | null = null;
  const check = () => {
    if (live) live.check();
    else
      import("../sync/live").then(
        ({ openLive }) => {
          live ??= openLive(deps);
        },
        () => {},
      );
  };
  check();
  return { check };
}
