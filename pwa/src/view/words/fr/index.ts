/** Tous les mots français : chargés d'un coup, et seulement par un téléphone qui parle français. */

import { common } from "./common";
import { job } from "./job";
import { log } from "./log";
import { looks } from "./looks";
import { me } from "./me";
import { people } from "./people";
import { place } from "./place";
import { queue } from "./queue";
import { reports } from "./reports";
import { ring } from "./ring";
import { round } from "./round";
import { service } from "./service";
import { shared } from "./shared";
import { since } from "./since";

export const french = {
  common,
  job,
  log,
  looks,
  me,
  people,
  place,
  queue,
  reports,
  ring,
  round,
  service,
  shared,
  since,
};
