/** Tells the other tabs of this phone that something changed in the store or at the server. */

/** `store`: read it again. `waiting`: there is something to send. `server`: the server said that something changed. */
export type News = "store" | "waiting" | "server";

export interface Tabs {
  tell(news: News): void;
  close(): void;
}

/** Join the channel between tabs; without BroadcastChannel each tab sees others' writes at its next read. */
export function openTabs(onNews: (news: News) => void, name = "shuntbook"): Tabs {
  const channel = quietly(() => new BroadcastChannel(name));
  if (channel) channel.onmessage = (event: MessageEvent<News>) => onNews(event.data);
  return {
    tell: (news) => quietly(() => channel?.postMessage(news)),
    close: () => channel?.close(),
  };
}

/** A word between tabs is a hint: a browser that has no channel or refuses it costs a delay, and no report. */
function quietly<T>(work: () => T): T | undefined {
  try {
    return work();
  } catch (error) {
    if (error instanceof DOMException || error instanceof ReferenceError || error instanceof TypeError)
      return undefined;
    throw error;
  }
}
