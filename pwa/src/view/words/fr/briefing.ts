/** Mots de la carte de briefing à la sortie d'assistance. */

import type { Words } from "../../../kit/language";
import type { briefing as english } from "../briefing";

export const briefing: Words<typeof english> = {
  title: "Briefing",
  link: "Briefing à la sortie",
  of: (car, service) => `Voiture ${car}, sortie de l'assistance ${service}`,
  none: "Aucun briefing de cette voiture n'a été donné sur ce téléphone.",
  noneNote: "Il se lit en assistance, avant les harnais. Ce qui a été lu alors reste ici.",
  kept: (time) => `Tel qu'en assistance à ${time}. Rien de plus récent n'est montré ici.`,
  log: "Il dit ce que contient le journal, rien de plus. Les officiels, le règlement local et les gens du métier décident.",
  done: "Fait",
  doneNone: "Rien n'a été noté comme fini dans cette assistance.",
  notDone: "Pas fait",
  notDoneNone: "Rien d'autre n'est ouvert dans le journal.",
  watch: "À surveiller",
  watchNone: "Rien n'est provisoire, accepté pour un temps ou laissé à vous.",
  why: { temporary: "réparé provisoirement : regardez après chaque spéciale", road: "laissé à vous, sur la route" },
  until: (service) => `accepté seulement jusqu'à l'assistance ${service} : regardez avant`,
  toNext: "reporté à la prochaine assistance",
  look: { needed: "personne ne l'a encore regardé", failed: "un contrôle l'a refusé" },
  aboard: "À bord",
  aboardNone: "Aucune pièce n'a été mise à bord pour vous.",
  tools: "Outils",
  hold: "Le journal retient cette voiture.",
  nothing: "Rien d'ouvert dans le journal ne retient cette voiture.",
  unknown: "On ne sait pas ici ce que contient le journal.",
  told: "Qui a été informé",
  toldAt: (role, name, time) => `${role} : ${name} a été informé à ${time}.`,
  toldBefore: (role, name, time) =>
    `${role} : ${name} a été informé à ${time}, et le journal a changé depuis. Redites-le.`,
  tap: (name) => `${name} a été informé`,
  role: { driver: "Pilote", "co-driver": "Copilote" },
  notTold: (role) => `${role} : pas encore informé.`,
  elsewhere: (names) => `${names} touche sur son propre téléphone : Assistance, puis Briefing.`,
};
