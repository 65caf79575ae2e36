/** Every sentence that a screen shows, in English: the one table to translate. Split by screen so that each loads its own. */

export { arrival } from "./words/arrival";
export { briefing } from "./words/briefing";
export { common } from "./words/common";
export { costs } from "./words/costs";
export { documents } from "./words/documents";
export { codes, handover } from "./words/handover";
export { eyes } from "./words/eyes";
export { incidents } from "./words/incidents";
export { job } from "./words/job";
export { log } from "./words/log";
export { me } from "./words/me";
export { plan } from "./words/plan";
export { queue } from "./words/queue";
export { readings } from "./words/readings";
export { reports } from "./words/reports";
export { ring } from "./words/ring";
export { round } from "./words/round";
export { setup } from "./words/setup";
export { service } from "./words/service";
export { shared } from "./words/shared";
export { turn } from "./words/turn";
export { walk } from "./words/walk";
