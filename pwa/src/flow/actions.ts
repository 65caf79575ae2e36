/**
 * What the screens may ask for: each action's name, and the one function that does it. Such a function takes the core
 * and what the screen says; its promise settles when what it writes is on the disk. To add one: write it, name it here.
 */

import type { RunningCore } from "./core";
import { lazy } from "./lazy";
import * as phone from "./phone";
import { amendReport, fileReport, fileReports, nothingSeen, withdrawReport } from "./reports";
import { askToKeep } from "./storage";
import { voidEntry } from "./undo";
import { takeUpdate } from "./update";

const aside = lazy(() => import("./quarantine"));
const charging = lazy(() => import("./charging"));
const documents = lazy(() => import("./fetching"));
const previews = lazy(() => import("./previewing"));
const handover = lazy(() => import("./handover"));
const hits = lazy(() => import("./hits"));
const inviting = lazy(() => import("./inviting"));
const jobs = lazy(() => import("./jobs"));
const locating = lazy(() => import("./locating"));
const papers = lazy(() => import("./walk_paper"));
const photos = lazy(() => import("./photos"));
const passes = lazy(() => import("./passes"));
const pins = lazy(() => import("./pins"));
const plan = lazy(() => import("./plan"));
const retiring = lazy(() => import("./retiring"));
const rebuilding = lazy(() => import("./rebuilding"));
const scanning = lazy(() => import("./scanning"));
const season = lazy(() => import("./season"));
const seen = lazy(() => import("./seen"));
const service = lazy(() => import("./service"));
const setup = lazy(() => import("./setup_files"));
const shared = lazy(() => import("./shared"));
const team = lazy(() => import("./team_plan"));
const voices = lazy(() => import("./voice_notes"));
const walk = lazy(() => import("./walk"));

const ACTIONS = {
  go: phone.go,
  chooseEvent: phone.chooseEvent,
  chooseCar: phone.chooseCar,
  join: phone.joinHere,
  switchPerson: phone.switchPerson,
  setPin: pins("setPin"),
  syncNow: phone.syncNow,
  applyUpdate: takeUpdate,
  askToKeep,
  install: phone.install,
  dismiss: phone.dismiss,
  lookedAtQueue: seen("lookedAtQueue"),
  rebuildDone: rebuilding("rebuildDone"),
  endRebuild: rebuilding("endRebuild"),
  knowInvite: rebuilding("knowInvite"),
  countedBefore: passes("countedBefore"),
  toldOfPasses: passes("toldOfPasses"),

  keepPhoto: photos("keepPhoto"),
  markPhoto: photos("markPhoto"),
  photoUrl: photos("photoUrl"),
  takeShared: shared("takeShared"),
  keepVoice: voices("keepVoice"),
  voiceSound: voices("voiceSound"),

  fileReport,
  fileReports,
  amendReport,
  withdrawReport,
  nothingSeen,
  voidEntry,
  locate: locating("locate"),
  positionOf: locating("positionOf"),
  groupReports: hits("groupReports"),
  takeApart: hits("takeApart"),
  partFitted: jobs("partFitted"),
  retainPart: hits("retainPart"),

  enterService: service("enterService"),
  leaveService: service("leaveService"),
  changeDriver: service("changeDriver"),
  retireCar: retiring("retireCar"),
  goOn: retiring("goOn"),
  enterControl: service("enterControl"),
  leaveControl: service("leaveControl"),
  askDriver: service("askDriver"),

  startJob: jobs("startJob"),
  stopJob: jobs("stopJob"),
  finishJob: jobs("finishJob"),
  finishJobs: jobs("finishJobs"),
  deferJob: jobs("deferJob"),
  inspect: jobs("inspect"),
  releaseCar: jobs("releaseCar"),
  adjustCost: jobs("adjustCost"),

  choosePlanned: plan("choosePlanned"),
  askPlan: plan("askPlan"),
  askQuietly: plan("askQuietly"),
  choosePlan: plan("choosePlan"),
  answerOffer: plan("answerOffer"),
  askTeamPlan: team("askTeamPlan"),
  improveTeamPlan: team("improveTeamPlan"),
  chooseTeamPlan: team("chooseTeamPlan"),
  startTask: plan("startTask"),
  finishTask: plan("finishTask"),
  keepBriefing: plan("keepCopy"),
  acknowledgeBriefing: plan("acknowledgeBriefing"),

  decideCharge: charging("decideCharge"),
  addCharge: charging("addCharge"),
  issueStatement: charging("issueStatement"),
  settleLine: charging("settleLine"),
  acceptRates: season("acceptRates"),
  askSpares: season("askSpares"),
  fetchDocument: documents("fetchDocument"),
  previewDocument: previews("previewDocument"),

  keepSetupDraft: setup("keepSetupDraft"),
  dropSetupDraft: setup("dropSetupDraft"),
  checkSetup: setup("checkSetup"),
  putSetup: setup("putSetup"),
  sampleFiles: setup("sampleFiles"),
  invitePerson: inviting("invitePerson"),
  asideHere: aside("asideHere"),
  reviewAside: aside("reviewAside"),
  asideGroups: aside("asideGroups"),
  leaveOutGroup: aside("leaveOutGroup"),

  makeBundle: handover("makeBundle"),
  takeBundle: handover("takeBundle"),
  codesFor: handover("codesFor"),
  scanCodes: scanning("scanCodes"),

  walkDraft: walk("walkDraft"),
  keepWalkDraft: walk("keepDraft"),
  dropWalkDraft: walk("dropDraft"),
  signWalk: walk("signWalk"),
  holdPhotos: walk("holdPhotos"),
  makeWalkPaper: papers("makeWalkPaper"),
  takeReadings: walk("takeReadings"),
};

type Bound<One> = One extends (core: RunningCore, ...asked: infer Asked) => infer Done
  ? (...asked: Asked) => Done
  : never;

/** The actions as the screens call them: without the core. */
export type Actions = { [Name in keyof typeof ACTIONS]: Bound<(typeof ACTIONS)[Name]> };

/** Return the actions of a running app. */
export function actionsOf(core: RunningCore): Actions {
  // TypeScript does not follow names through entries; `Actions` is computed from the same table.
  const table = Object.entries(ACTIONS) as [string, (core: RunningCore, ...asked: unknown[]) => unknown][];
  return Object.fromEntries(table.map(([name, act]) => [name, act.bind(null, core)])) as Actions;
}
