/** Mots du tableau mural : peu et courts, on les lit de l'autre bout de la tente. */

import type { Words } from "../../../kit/language";
import type { board as english } from "../board";

const more = {
  now: (n: number) => (n === 1 ? "1 autre personne" : `${n} autres personnes`),
  next: (n: number) => (n === 1 ? "1 autre tâche" : `${n} autres tâches`),
  reports: (n: number) => (n === 1 ? "1 autre rapport" : `${n} autres rapports`),
};

export const board: Words<typeof english> = {
  title: "Tableau",
  link: "Tableau pour le mur",
  titles: { status: "La voiture", now: "Qui fait quoi", next: "Ce qui suit", reports: "Derniers rapports" },
  noHold: "Journal : pas retenue",
  holds: (n) => (n === 1 ? "1 motif" : `${n} motifs`),
  left: (min) => `reste ${min} min`,
  dueNow: "Sortie maintenant",
  over: (min) => `${min} min de retard`,
  longOver: "Plus d'1 h de retard",
  out: (clock) => `Sortie ${clock}`,
  notIn: "Pas en assistance",
  due: (clock) => `Entrée ${clock}`,
  noClock: "Pas d'heure prévue",
  afterwards: (what) => `puis : ${what}`,
  next: "Suite",
  fresh: "Neuf",
  nobody: "Personne n'a commencé de tâche",
  nothingMore: "rien de plus",
  nothingNext: "Rien ne suit",
  queueUnknown: "Travaux pas encore ici",
  noReports: "Aucun rapport",
  andMore: (said, n) => `${said} et ${n} de plus`,
  corners: { "front-left": "AVG", "front-right": "AVD", "rear-left": "ARG", "rear-right": "ARD" },
  hidden(counts) {
    const said = (["now", "next", "reports"] as const).filter((part) => counts[part] > 0);
    return said.length === 0 ? "" : `et ${said.map((part) => more[part](counts[part])).join(", ")}`;
  },
  seen: (n) => (n === 1 ? "1 neuf : vu" : `${n} neufs : vus`),
  full: "Plein écran",
  leaveFull: "Quitter le plein écran",
  back: "Retour à l'assistance",
  planOld: "Un rapport est arrivé après ce plan : refaites-le.",
  noPlan: "Pas de plan sur cet appareil : l'ordre des travaux.",
  awake: "L'écran reste allumé.",
  asleep: "Ce navigateur peut laisser l'écran s'éteindre : changez-le dans les réglages de l'appareil.",
};
