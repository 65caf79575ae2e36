/** Tells the other tabs of this phone that something changed in the store or at the server. */

/** `store`: read it again. `waiting`: there is something to send. `server`: the server said that something changed. */
export type News = "store" | "waiting" | "server";

export interface Tabs {
  tell(news: News): void;
  close(): void;
}

/** Join the channel between tabs; without BroadcastChannel each tab sees others' writes at its next read. */
export function openTabs(onNews: (news: News) => void, name = "shuntbook"): Tabs {
  if (typeof BroadcastChannel === "undefined") return { tell() {}, close() {} };
  const channel = new BroadcastChannel(name);
  channel.onmessage = (event: MessageEvent<News>) => onNews(event.data);
  return {
    tell: (news) => channel.postMessage(news),
    close: () => channel.close(),
  };
}
