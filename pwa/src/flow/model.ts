/** What the screens see and what they may ask for: the one line between view/ and everything behind it. */

import type {
  Aside,
  AsideGroup,
  Costs,
  DataOf,
  EventSetup,
  Lives,
  Passes,
  Position,
  Queue,
  ReportBody,
  Role,
  SetupFiles,
  Statements,
} from "../kit/api";
import type { Following, Keeping } from "../kit/kept_app";
import type { Briefing } from "../report/briefing";
import type { Gap } from "../report/gaps";
import type { Code } from "../report/handed";
import type { Cached, LocalEntry, Sending } from "../report/local_entry";
import type { Signed } from "../report/looks";
import type { HeldPlan, PlanWish } from "../report/plan";
import type { ReleaseShown } from "../report/release";
import type { SeasonAnswers } from "../report/season";
import type { HeldTeam, TeamWish } from "../report/team_plan";
import type { Told } from "../report/told";
import type { Change } from "../setup/changes";
import type { ServerFault } from "../setup/faults";
import type { SetupDraft } from "../store/setup_drafts";
import type { Install } from "./install";
import type { Space } from "./page";
import type { ScreenName } from "./route";

export type { Actions } from "./actions";
export type {
  Briefing,
  LocalEntry,
  HeldPlan,
  HeldTeam,
  TeamWish,
  PlanWish,
  ReleaseShown,
  SeasonAnswers,
  Sending,
  SetupDraft,
};

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

/** A car with how many of its inspections counted in release 0.1, do not today, and are still to be made again. */
export interface CountedBefore {
  car: string;
  passes: number;
}

/** An entry that the server set aside, and who joined on the device that brought it, where this phone knows. */
export type AsideItem = Aside & { brought_by_person: string | null };

/** Much that one device brought and that was set aside, and who joined on it, where this phone knows. */
export type AsideGroupItem = AsideGroup & { brought_by_person: string | null };

/**
 * `#/log`, `#/log/<report>` (amend), `#/reports`, `#/queue`, `#/job/<zone>/<component>`, `#/service`, `#/service/release`, `#/costs`, `#/me`, `#/aside`, `#/handover`, `#/codes/<report>`, `#/plan`,
 * `#/plan/sheet`, `#/plan/task/<task>`, `#/briefing`, `#/documents`, `#/documents/<paper>` (the one seen beside the list), `#/statement`, `#/season`, `#/walk`, `#/readings`,
 * `#/setup`, `#/setup/<event>`, `#/setup/<event>/<table>`, `#/incidents`, `#/round`, `#/round/<zone>`, `#/arrival`,
 * `#/turn`, `#/about`, `#/board`, `#/looks`, `#/more`, `#/report/<report>`, `#/place/<zone>`, `#/place/<zone>/inspect`,
 * `#/passes`, `#/retired`, `#/team`, `#/place/<zone>/inspect/<component>`, `#/log/shared` (photos from another app).
 */
export interface Route {
  screen: ScreenName;
  /** Rest of the path, decoded: the report's id or the job's key. */
  subject: string | null;
}

/** What the server says of set-up files: every fault, or what they change. */
export interface SetupChecked {
  faults: ServerFault[];
  /** What is taken and deserves to be told; a server of 0.1.0 sends none. */
  warnings?: ServerFault[];
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
  /** A long log is still being read, and the first screen is there: of `entries` and what follows from them there is nothing yet. */
  reading: boolean;
  identity: Identity | null;
  identities: Identity[];
  route: Route;
  setup: EventSetup | null;
  /** The events that may be chosen. */
  events: { event: string; name: string }[];
  car: string | null;
  /** The other cars whose boards stand beside this car's on the wall, each as if it were the chosen one. */
  boards: AppState[];
  /**
   * Entries of the chosen event, all cars, in no order that matters. Without others' work and decisions while
   * `advice` is false.
   */
  entries: LocalEntry[];
  /** False for a crew on the road where the event forbids advice: then `queue`, `costs` and `release` are null. */
  advice: boolean;
  /** This phone spares its battery: its person says that the car does not drive. */
  resting: boolean;
  queue: Cached<Queue> | null;
  /** Whose answer `queue` is; where it is the phone's own, its `heard_at` is when it was worked out here. */
  queue_from: "server" | "phone";
  /** What may be said of the chosen car's release; null while `advice` is false or no car is chosen. */
  release: ReleaseShown | null;
  /** Jobs with an entry that this person had not seen at the last `lookedAtQueue`. */
  fresh_jobs: string[];
  /** Whether this person said of the chosen car's queue before that it was seen. */
  has_looked: boolean;
  costs: Cached<Costs> | null;
  /** What the chosen car's customer is charged, for a manager. */
  statements: Cached<Statements> | null;
  /** The chosen car's inspections that do not count, for those who work on it. Read on the screen that shows it. */
  passes: Cached<Passes> | null;
  /** What the events held teach, for a manager. Read on the screen that shows it. */
  season: SeasonAnswers | null;
  /** The chosen car's parts that have a life; null while `advice` is false. Read on the screens that show them. */
  lives: Cached<Lives> | null;
  /** The last plan of each service of the chosen car; none while `advice` is false. Read on the screens that show it. */
  plans: HeldPlan[];
  /** The last plan of all cars; null while `advice` is false. Read on the screen that shows it. */
  team_plan: HeldTeam | null;
  /** The service that was chosen to be planned, or null for the one that is due. */
  planned: string | null;
  /** The last briefing of the chosen car that was given on this phone, as it was then. */
  briefing: Briefing | null;
  /** Drafts of set-ups, and the files of events that a manager's phone holds. Read on the screens that show them. */
  drafts: SetupDraft[];
  files: { event: string; files: SetupFiles }[];
  /** What everybody is told of who may be believed, or null for nothing. */
  told: Told | null;
  /** When the server last answered this phone, or null. */
  last_heard: string | null;
  /** Whether the last try to reach the server failed. */
  unreachable: boolean;
  /** It failed since the server fell over it. */
  failed: boolean;
  /** The server does not know this person's token (any more): all is kept; a new join link lets it go out. */
  token_refused: boolean;
  /** How many entries came so far of a long log that is being fetched; null while none is. */
  fetched: number | null;
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
  /** How much is here of what follows once the app is kept, as what makes papers; null where the worker did not tell. */
  following: Following | null;
  update_ready: boolean;
  /** Epoch ms, refreshed every 15 s while visible. */
  now: number;
  /** A sentence for the person: what happened and what to do; cleared by `dismiss`. `undo` is for `voidEntry`; `stays`: so for as long as the app is open. */
  message: { text: string; undo: string | null; stays?: boolean } | null;
  /** Whether the app was opened by a join link that failed, with the reason. */
  join_problem: string | null;
  /** Whether a join link is in the address: until it is spent or left, nobody's screen is shown, lest the next person log as the last. */
  joining: boolean;
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

/** One signature over one or several jobs: what it says of each, and of all of them. */
export interface Inspection {
  signed: Signed[];
  until: string | null;
  shown_to: string | null;
  official_said: string | null;
  note: string | null;
}

/** What is said at a release: why, what was asked and answered, and the own PIN where the car is on hold. */
export interface Release {
  /** "" where none is needed. */
  reason: string;
  answers: NonNullable<DataOf["car.released"]["answers"]>;
  pin: string | null;
}

/** A broken part that is kept until the bill is paid; `part`: its name in the rate table, or null. */
/** A part that went in. `since`: the day that its life counts from (YYYY-MM-DD), null = now. */
export interface FittedPart {
  serial: string;
  rebuilt: boolean;
  since: string | null;
}

export interface KeptPart {
  tag: string;
  shelf: string;
  part: string | null;
}
