/** A screen whose code is fetched when it is first shown, so that the log screen opens at once. */

import type { ComponentType, VNode } from "preact";
import { useEffect, useState } from "preact/hooks";
import { common } from "../words/common";

/** `online` is a hint, no more: it does not come where only the server was away. */
const AGAIN_MS = 15_000;
/** What mostly is there at once is not told of: words that come and go would only move what is below. */
const LATE_MS = 400;

type Load<P> = () => Promise<ComponentType<P>>;

/** `ahead`: fetch it before it is shown, so that it stands there at once; a failure is tried again when it is. */
type Later<P> = ((props: P) => VNode | null) & { ahead: () => void };

/**
 * Returns a component that shows a line of words until `load` has answered. A failed load is tried again by itself,
 * at once when the network may be back, and a screen offers a button for it.
 * `missing`: for what is only a part of a screen. Nothing stands there meanwhile; where it can't be loaded, what this
 * returns, which names the part (null: nothing, for what nobody misses).
 */
export function lazy<P extends object>(load: Load<P>, missing?: () => string | null): Later<P> {
  let loaded: ComponentType<P> | null = null;
  const keep = (screen: ComponentType<P>) => {
    loaded = screen;
  };
  return Object.assign(Lazy, { ahead: () => void load().then(keep, () => {}) });
  function Lazy(props: P) {
    const [tries, setTries] = useState(0);
    const [failed, setFailed] = useState(false);
    const [isLate, setLate] = useState(false);
    const [, setLoaded] = useState(loaded !== null);
    useEffect(() => {
      if (loaded) return;
      // The words of a part that is missing stay while it is tried again: nothing moves under a finger.
      if (!missing) setFailed(false);
      load().then(
        (screen) => {
          keep(screen);
          setLoaded(true);
        },
        () => setFailed(true),
      );
    }, [tries]);
    useEffect(() => {
      const timer = setTimeout(() => setLate(true), LATE_MS);
      return () => clearTimeout(timer);
    }, []);
    useEffect(() => {
      if (!failed) return;
      const again = () => setTries((so_many) => so_many + 1);
      const timer = setTimeout(again, AGAIN_MS);
      addEventListener("online", again);
      return () => {
        clearTimeout(timer);
        removeEventListener("online", again);
      };
    }, [failed, tries]);
    if (loaded) {
      const Screen = loaded;
      return <Screen {...props} />;
    }
    if (missing) return failed ? <PartMissing text={missing()} /> : null;
    return (
      <div class="stack" role="status">
        {(failed || isLate) && <p>{failed ? common.loadFailed : common.loading}</p>}
        {failed && (
          <button type="button" class="button" onClick={() => setTries(tries + 1)}>
            {common.tryAgain}
          </button>
        )}
      </div>
    );
  }
}

function PartMissing({ text }: { text: string | null }) {
  return text === null ? null : <p class="soft">{text}</p>;
}
