/** Tous les mots français : chargés d'un coup, et seulement par un téléphone qui parle français. */

import { about, tour } from "./about";
import { agreements } from "./agreements";
import { arrival } from "./arrival";
import { aside } from "./aside";
import { board } from "./board";
import { briefing } from "./briefing";
import { common } from "./common";
import { costs } from "./costs";
import { documents } from "./documents";
import { eyes } from "./eyes";
import { guide } from "./guide";
import { codes, handing, handover } from "./handover";
import { incidents } from "./incidents";
import { job } from "./job";
import { lives } from "./lives";
import { log } from "./log";
import { looks } from "./looks";
import { me } from "./me";
import { keys } from "./keys";
import { more } from "./more";
import { notices } from "./notices";
import { passes } from "./passes";
import { people } from "./people";
import { place } from "./place";
import { places } from "./places";
import { plan, tasks } from "./plan";
import { queue } from "./queue";
import { readings } from "./readings";
import { reports } from "./reports";
import { retired } from "./retired";
import { ring } from "./ring";
import { round } from "./round";
import { said } from "./said";
import { season } from "./season";
import { seldom } from "./seldom";
import { service } from "./service";
import { setup } from "./setup";
import { shared } from "./shared";
import { shell } from "./shell";
import { since } from "./since";
import { statement } from "./statement";
import { taking } from "./taking";
import { team } from "./team";
import { told } from "./told";
import { turn } from "./turn";
import { voice } from "./voice";
import { walk } from "./walk";

export const french = {
  about,
  agreements,
  arrival,
  aside,
  board,
  briefing,
  codes,
  common,
  costs,
  documents,
  eyes,
  guide,
  handing,
  handover,
  incidents,
  job,
  lives,
  log,
  looks,
  me,
  keys,
  more,
  notices,
  passes,
  people,
  place,
  places,
  plan,
  queue,
  readings,
  reports,
  retired,
  ring,
  round,
  said,
  season,
  seldom,
  service,
  setup,
  shared,
  shell,
  since,
  statement,
  tasks,
  tour,
  taking,
  team,
  told,
  turn,
  voice,
  walk,
};
