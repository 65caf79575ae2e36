/** A screen whose code is fetched when it is first shown, so that the log screen opens at once. */

import type { ComponentType, VNode } from "preact";
import { useEffect, useState } from "preact/hooks";
import { common } from "../words/common";

type Load<P> = () => Promise<ComponentType<P>>;

/**
 * Returns a component that shows a line of words until `load` has answered; a failed load offers another try.
 * `quiet`: nothing stands there meanwhile, for what is only a part of a screen and may stand on it many times.
 */
export function lazy<P extends object>(load: Load<P>, quiet = false): (props: P) => VNode | null {
  let loaded: ComponentType<P> | null = null;
  return function Lazy(props: P) {
    const [tries, setTries] = useState(0);
    const [failed, setFailed] = useState(false);
    const [, setLoaded] = useState(loaded !== null);
    useEffect(() => {
      if (loaded) return;
      setFailed(false);
      load().then(
        (screen) => {
          loaded = screen;
          setLoaded(true);
        },
        () => setFailed(true),
      );
    }, [tries]);
    if (loaded) {
      const Screen = loaded;
      return <Screen {...props} />;
    }
    if (quiet && !failed) return null;
    return (
      <div class="stack" role="status">
        <p>{failed ? common.loadFailed : common.loading}</p>
        {failed && (
          <button type="button" class="button" onClick={() => setTries(tries + 1)}>
            {common.tryAgain}
          </button>
        )}
      </div>
    );
  };
}
