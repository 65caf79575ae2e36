/** Mots d'une voiture qui a abandonné : où, comment, qui l'a récupérée, si elle repart. */

import type { Words } from "../../../kit/language";
import type { retired as english } from "../retired";

export const retired: Words<typeof english> = {
  title: "Abandon, nouveau départ",
  about: "où et comment elle s'est arrêtée, nouveau départ, prête pour",
  peopleFirst: "Les personnes d'abord : tout le monde hors de la voiture et de la route, triangle posé, puis ceci.",
  line: (where, restart) => `Abandon${where ? ` : ${where}` : ""}. Nouveau départ : ${restart.toLowerCase()}`,
  lineReady: (clock) => `Repart : prête pour ${clock}`,
  isRetired: "La voiture a abandonné.",
  stage: "Spéciale",
  noStage: "Pas en spéciale",
  km: "km dans la spéciale",
  kmUnknown: "km inconnu",
  drives: "Roule-t-elle ?",
  cause: "Ce qui l'a arrêtée",
  noCause: "Aucun rapport ne le dit",
  recovered: "Qui l'a récupérée",
  recoveredOwn: "Ou quelqu'un d'autre",
  recoverers: ["Dépannage de l'épreuve", "Notre équipe", "D'autres équipages", "Personne encore"],
  restart: "Repart-elle ?",
  restarts: { yes: "Oui", no: "Non", unknown: "Pas encore connu" },
  readyBy: "Prête pour",
  readyNote:
    "Quand les vérifications veulent la voir, ou selon la liste des nouveaux départs. Les heures de l'épreuve font foi.",
  save: "Enregistrer : abandon",
  saveRestart: (clock) => `Enregistrer : repart, prête pour ${clock}`,
  goOn: "Elle n'a pas abandonné : elle continue",
  said: (name, time) => `Dit en dernier par ${name} à ${time}. Pour corriger, changez et enregistrez à nouveau.`,
  next: "Pour le nouveau départ",
  plan: (clock) => `Planifier le travail jusqu'à ${clock}`,
  planAbout: "qui fait quoi jusqu'à ce qu'elle doive être prête",
  sheet: "Feuille de nouveau départ",
  sheetAbout: "pour les vérifications, à imprimer : sous Documents",
  queueAbout: "ce qui est ouvert, ce qui la retient",
};
