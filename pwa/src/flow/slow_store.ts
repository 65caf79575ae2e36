/** A browser may take long to open the store, or never say a word: the person who waits is told what helps. */

const LONG_MS = 10_000;

/** Call `tell` where a store has not opened after a while, and `takeBack` where it opens, or fails, after all. */
export function tellIfSlow(opened: Promise<unknown>, tell: () => void, takeBack: () => void): void {
  let told = false;
  const timer = setTimeout(() => {
    told = true;
    tell();
  }, LONG_MS);
  const ended = () => {
    clearTimeout(timer);
    if (told) takeBack();
  };
  opened.then(ended, ended);
}
