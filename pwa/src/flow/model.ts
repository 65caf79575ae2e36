/** What the screens see and what they may ask for: the one line between view/ and everything behind it. */

import type {
  Accepted,
  Aside,
  Costs,
  DataOf,
  EventSetup,
  OperationName,
  Position,
  Queue,
  ReportBody,
  Role,
  SetupFiles,
  Statement,
  Statements,
} from "../kit/api";
import type { Keeping } from "../kit/kept_app";
import type { Marking } from "../kit/ring";
import type { Shared } from "../kit/shared";
import type { Briefing } from "../report/briefing";
import type { Control } from "../report/controls";
import type { Gap } from "../report/gaps";
import type { BundleTaken, Code, MadeBundle, Scan, ScanNews } from "../report/handed";
import type { Heard, HeldEntry, Sending } from "../report/held";
import type { HitSaid } from "../report/grouping";
import type { MadeFile, Progress } from "../report/made_file";
import type { HeldPlan, PlanWish } from "../report/plan";
import type { NewReading } from "../report/readings";
import type { ReleaseShown } from "../report/release";
import type { WalkDraft } from "../report/walk_draft";
import type { MadePaper, WalkPaper } from "../report/walk_paper";
import type { ChargeDecision, LineStanding } from "../report/statement";
import type { SeasonAnswers, SparesWish } from "../report/season";
import type { Change } from "../setup/changes";
import type { ServerFault } from "../setup/faults";
import type { Files } from "../setup/files";
import type { SetupDraft } from "../store/setup_drafts";
import type { Install } from "./install";
import type { Space } from "./page";

export type { ChargeDecision, LineStanding, SeasonAnswers, SparesWish };
export type { Briefing, Gap, Heard, HeldEntry, HeldPlan, PlanWish, ReleaseShown, Sending, SetupDraft };

/** A person who joined on this phone. The token never leaves store/ and sync/. */
export interface Identity {
  person: string;
  name: string;
  roles: Role[];
  device: string;
  /** Whether the device has a key to sign with: none on a page over plain http, or after joining with an older app. */
  signs: boolean;
  /** Whether the person chose a PIN on this phone. */
  has_pin: boolean;
}

/** An entry that the server set aside, and who joined on the device that brought it, where this phone knows. */
export type AsideItem = Aside & { brought_by_person: string | null };

/**
 * `#/log`, `#/log/<report>` (amend), `#/reports`, `#/queue`, `#/job/<zone>/<component>`, `#/service`, `#/costs`, `#/me`, `#/aside`, `#/handover`, `#/codes/<report>`, `#/plan`,
 * `#/plan/sheet`, `#/plan/task/<task>`, `#/briefing`, `#/documents`, `#/statement`, `#/season`, `#/walk`, `#/readings`,
 * `#/setup`, `#/setup/<event>`, `#/setup/<event>/<table>`, `#/incidents`, `#/round`, `#/round/<zone>`, `#/arrival`,
 * `#/turn`, `#/about`, `#/board`, `#/looks`, `#/log/shared` (photos from another app).
 */
export interface Route {
  screen:
    | "log"
    | "reports"
    | "queue"
    | "job"
    | "service"
    | "costs"
    | "me"
    | "aside"
    | "handover"
    | "codes"
    | "plan"
    | "briefing"
    | "walk"
    | "readings"
    | "documents"
    | "statement"
    | "season"
    | "setup"
    | "incidents"
    | "round"
    | "arrival"
    | "turn"
    | "about"
    | "board"
    | "looks";
  /** Rest of the path, decoded: the report's id or the job's key. */
  subject: string | null;
}

/** What the server says of set-up files: every fault, or what they change. */
export interface SetupChecked {
  faults: ServerFault[];
  difference: Change[];
}

/** A join link that works once, and the link as a code for a camera. */
export interface Invited {
  person: string;
  link: string;
  code: string;
  drawn: Code;
}

export interface AppState {
  /** False until the phone's own store was read. */
  ready: boolean;
  identity: Identity | null;
  identities: Identity[];
  route: Route;
  setup: EventSetup | null;
  /** The events that may be chosen. */
  events: { event: string; name: string }[];
  car: string | null;
  /**
   * Entries of the chosen event, all cars, in no order that matters. Without others' work and decisions while
   * `advice` is false.
   */
  entries: HeldEntry[];
  /** False for a crew on the road where the event forbids advice: then `queue`, `costs` and `release` are null. */
  advice: boolean;
  /** This phone spares its battery: its person says that the car does not drive. */
  resting: boolean;
  queue: Heard<Queue> | null;
  /** Whose answer `queue` is; where it is the phone's own, its `heard_at` is when it was worked out here. */
  queue_from: "server" | "phone";
  /** What may be said of the chosen car's release; null while `advice` is false or no car is chosen. */
  release: ReleaseShown | null;
  /** Jobs with an entry that this person had not seen at the last `lookedAtQueue`. */
  fresh_jobs: string[];
  costs: Heard<Costs> | null;
  /** What the chosen car's customer is charged, for a manager. */
  statements: Heard<Statements> | null;
  /** What the events held teach, for a manager. Read on the screen that shows it. */
  season: SeasonAnswers | null;
  /** The last plan of each service of the chosen car; none while `advice` is false. Read on the screens that show it. */
  plans: HeldPlan[];
  /** The service that was chosen to be planned, or null for the one that is due. */
  planned: string | null;
  /** The last briefing of the chosen car that was given on this phone, as it was then. */
  briefing: Briefing | null;
  /** Drafts of set-ups, and the files of events that a manager's phone holds. Read on the screens that show them. */
  drafts: SetupDraft[];
  files: { event: string; files: SetupFiles }[];
  /** When the server last answered this phone, or null. */
  last_heard: string | null;
  /** Whether the last try to reach the server failed. */
  unreachable: boolean;
  /** The server does not know this person's token (any more): all is kept; a new join link lets it go out. */
  token_refused: boolean;
  /** Entries (`waiting`) and photos of this phone, of any event, that the server has not acknowledged. */
  waiting: number;
  attention: number;
  waiting_photos: number;
  /** Devices' own numbers that nobody holds (a lost phone took them, or they were set aside) or that came twice. */
  gaps: Gap[];
  /** navigator.storage.persisted(): null where the browser does not tell. */
  persisted: boolean | null;
  /** What the browser says of its room for this app; null where it does not tell. Asked at the start and for Me. */
  space: Space | null;
  /** How the app gets onto the home screen, or null where it is there or can't be. */
  install: Install;
  /** How much of the app itself is kept here, for use without signal. */
  keeping: Keeping;
  update_ready: boolean;
  /** Epoch ms, refreshed every 15 s while visible. */
  now: number;
  /** A sentence for the person: what happened and what to do; cleared by `dismiss`. `undo` is for `voidEntry`. */
  message: { text: string; undo: string | null } | null;
  /** Whether the app was opened by a join link that failed, with the reason. */
  join_problem: string | null;
}

/** A report being written. `photos` are kept on the phone already (shrunk, EXIF gone), named by SHA-256. */
export type Draft = ReportBody;

/** Where the phone is, or why it does not say. */
export type Located = Position | { refused: "denied" | "unavailable" | "timeout" };

export interface Finish {
  action: string;
  minutes: number | null;
  mechanics: number;
  parts: { part: string; qty: number }[];
  repairers: string[];
  temporary: boolean;
  /** RFC 3339, where it is put down later than it was done; null = now. */
  said_at: string | null;
}

export interface Look {
  verdict: "passed" | "failed";
  checks: { check: string; ok: boolean }[];
  until: string | null;
  shown_to: string | null;
  official_said: string | null;
  note: string | null;
}

/** A broken part that is kept until the bill is paid; `part`: its name in the rate table, or null. */
export interface KeptPart {
  tag: string;
  shelf: string;
  part: string | null;
}

/** Everything a screen may ask for. Each promise settles when the entry is on disk (transaction done). */
export interface Actions {
  go(route: string): void;
  chooseEvent(event: string): void;
  chooseCar(car: string): void;
  /** `pin`: chosen for the person who joins, or "" for none yet. */
  join(code: string, pin: string): Promise<void>;
  /** `pin`: asked where that person chose one. Errors: Told. */
  switchPerson(person: string, pin: string): Promise<void>;
  /** Choose a PIN for who speaks; `old` where there is one. Errors: Told. */
  setPin(pin: string, old: string): Promise<void>;
  syncNow(): Promise<void>;
  applyUpdate(): void;
  askToKeep(): Promise<void>;
  /** Have the browser ask whether the app goes onto the home screen, then whether it keeps the log. */
  install(): Promise<void>;
  dismiss(): void;
  /** This person has seen the queue as it is: `fresh_jobs` becomes empty. */
  lookedAtQueue(): Promise<void>;

  /** Shrinks the picture in a worker, strips EXIF, keeps it; returns its SHA-256. */
  keepPhoto(file: Blob): Promise<string>;
  /** Keeps a new photo with the ring on it; the one that it shows stays as it is. Returns its SHA-256. Errors: Told. */
  markPhoto(sha256: string, marking: Marking): Promise<string>;
  /** Keeps the photos that another app shared. */
  takeShared(): Promise<Shared>;
  /** Object URL of a photo from this phone or the server (`width` for a thumbnail), null where neither has it. */
  photoUrl(sha256: string, width?: number): Promise<string | null>;

  /** Keep a voice note about a report or job, `seconds` long. */
  keepVoice(subject: string, note: Blob, seconds: number): Promise<void>;
  /** A voice note's sound from this phone or the server, null where neither has it. */
  voiceSound(sha256: string): Promise<Blob | null>;

  /** Returns the report's id. */
  fileReport(draft: Draft): Promise<string>;
  /** Several reports in one go: all are on the disk, or none. */
  fileReports(drafts: Draft[]): Promise<void>;
  /** `replaces` all heads of the report. */
  amendReport(report: string, draft: Draft): Promise<void>;
  /** Ask the phone where it is; it keeps the answer for this report, or for the one being written (null), and shares nothing. */
  locate(report: string | null): Promise<Located>;
  /** What this phone keeps of where that report was written; null where nothing. */
  positionOf(report: string | null): Promise<Position | null>;
  withdrawReport(report: string, reason: string): Promise<void>;
  nothingSeen(stage: string, how: "from-seat" | "walked-round"): Promise<void>;
  enterService(service: string, officialTime: string): Promise<void>;
  leaveService(service: string, officialTime: string): Promise<void>;
  changeDriver(person: string): Promise<void>;
  /** The car stands where nobody may work on it; `officialTime` as HH:MM. */
  enterControl(control: Control, officialTime: string): Promise<void>;
  /** Ends every control that this phone knows the car to be in. */
  leaveControl(officialTime: string): Promise<void>;
  /** What the driver said, and in the same go the report of what is not as before, if any. */
  askDriver(asked: DataOf["driver.asked"], report: Draft | null): Promise<void>;
  /** These reports are of one hit. `edited`: the grouping that this changes, or null. */
  groupReports(said: HitSaid, edited: string | null): Promise<void>;
  /** Take a grouping apart: its reports stand as before it. */
  takeApart(incident: string): Promise<void>;
  retainPart(job: string, kept: KeptPart): Promise<void>;

  /** Job actions cover what the queue on this phone shows for the job (its `findings`, `uncovered`). */
  startJob(job: string): Promise<void>;
  stopJob(job: string): Promise<void>;
  finishJob(job: string, finish: Finish): Promise<void>;
  /** Several jobs done, put down in one go: an entry for each; undone together. */
  finishJobs(done: { job: string; finish: Finish }[]): Promise<void>;
  deferJob(job: string, to: "next-service" | "road", reason: string): Promise<void>;
  /** One look for one or several jobs: an entry for each, covering all that was shown. `pin`: the own one. Errors: Told. */
  inspect(jobs: string[], look: Look, pin: string): Promise<void>;
  releaseCar(service: string, reason: string): Promise<void>;
  /** The service to plan, until the app is opened anew. */
  choosePlanned(service: string): void;
  /** Have a service planned and keep the plan; only with the server there. Errors: Told. */
  askPlan(service: string, wish: PlanWish): Promise<void>;
  /** Begin and end a task of the plan that is no job. */
  startTask(service: string, task: string): Promise<void>;
  finishTask(service: string, task: string): Promise<void>;
  /** Keep a copy of what the crew was shown in service. */
  keepBriefing(briefing: Briefing): Promise<void>;
  /** A person who joined on this phone was told. `pin`: that person's, where another one speaks. Errors: Told. */
  acknowledgeBriefing(briefing: Briefing, person: string, pin: string): Promise<void>;
  adjustCost(job: string, amount: string, reason: string): Promise<void>;
  /** What a cost line is to the agreement; takes over what was decided of it before. */
  decideCharge(line: string, decision: ChargeDecision): Promise<void>;
  /** The draft goes to the customer as it stands here. Errors: Told where it is too long for one entry. */
  issueStatement(draft: Statement): Promise<void>;
  /** What became of a line of an issued statement. */
  settleLine(statement: string, line: string, standing: LineStanding, reason: string): Promise<void>;
  /** Put suggested minutes in force for the rate table `version`, with the server there. Errors: Told. */
  acceptRates(version: string, operations: OperationName[]): Promise<Accepted>;
  /** Have the spares reckoned for such an event, with the server there. Errors: Told. */
  askSpares(wish: SparesWish): Promise<void>;
  /** Undoes the entry, and with it those that the same tap made (a look at several jobs). */
  voidEntry(entry: string, reason: string): Promise<void>;

  /** Keep a draft of a set-up on this phone. */
  keepSetupDraft(draft: SetupDraft): Promise<void>;
  dropSetupDraft(event: string): Promise<void>;
  /** Have the server look at files; `against`: another event to compare with. Errors: Told. */
  checkSetup(event: string, files: Files, against: string | null): Promise<SetupChecked>;
  /** Put files in force where `version` still is, and drop the draft. Errors: Told; the draft is kept then. */
  putSetup(event: string, files: Files, version: string, draft: string): Promise<void>;
  /** Make a join link for a person of an event in force; only with the server there. Errors: Told. */
  invitePerson(person: string): Promise<Invited>;

  /** What the server set aside, newest first. Only a manager, and only with the server there. Errors: Told. */
  asideHere(): Promise<AsideItem[]>;
  /** Take it into the log after all, or leave it out. Errors: Told. */
  reviewAside(sha256: string, verdict: "accepted" | "discarded", reason: string): Promise<void>;

  /** Has the server make a document and fetches it. `path`: what follows the event's address. Errors: Told. */
  fetchDocument(path: string, onProgress: (progress: Progress) => void): Promise<MadeFile>;

  /** Makes a file of what this phone holds of the event, for a phone or server that no network reaches. */
  makeBundle(): Promise<MadeBundle>;
  /** Takes such a file in: checked whole before anything is kept. */
  takeBundle(file: Blob): Promise<BundleTaken>;
  /** QR codes for reports of the chosen car with all their versions; null where they are too much for codes. */
  codesFor(reports: string[]): Promise<Code[] | null>;
  /** The hand-over walk of the chosen car that is under way on this phone, or null. */
  walkDraft(): Promise<WalkDraft | null>;
  /** Keeps it as it is now. Errors: Told where the phone is full. */
  keepWalkDraft(draft: WalkDraft): Promise<void>;
  /** Gives it up; its photos are forgotten after a day. */
  dropWalkDraft(): Promise<void>;
  /**
   * Signs the walk: the marks' reports and the walk in one go. `drawn`: pictures of the signatures, by place among
   * the signers, null where nobody drew. Returns the walk's id. Errors: Told.
   */
  signWalk(draft: WalkDraft, drawn: (Blob | null)[]): Promise<string>;
  /** Keeps these photos on this phone where the server has them, to be seen without it. */
  holdPhotos(photos: string[]): Promise<void>;
  /** Makes the PDF of a walk on this phone. */
  makeWalkPaper(paper: WalkPaper): Promise<MadePaper>;
  /** Readings in one go, and with them the report that they call for, if any. */
  takeReadings(readings: NewReading[], report: Draft | null): Promise<void>;

  /** Shows the camera in `video` and reads codes until a run is whole, the camera fails, or `stop`. */
  scanCodes(video: HTMLVideoElement, onNews: (news: ScanNews) => void): Promise<Scan>;
}
