/** Mots d'un endroit de la voiture : ce qui y est ouvert, et son contrôle. */

import type { Words } from "../../../kit/language";
import type { places as english } from "../places";

export const places: Words<typeof english> = {
  notThere: "Le plan de cette voiture n'a pas cet endroit. Retournez aux travaux.",
  toPlace: (zone, n) => `Les ${n} travaux : ${zone}`,
  sum: (jobs, time) => (jobs === 1 ? `1 travail · ${time}` : `${jobs} travaux · ${time}`),
  minutes: (n) => `${n} min`,
  hours: (h, min) => (min === 0 ? `${h} h` : `${h} h ${min} min`),
  seconds: (n) => `${n} s`,
  empty: "Rien d'ouvert ici dans le journal",
  emptyNote: "Ce qui arrive pour cet endroit s'affiche ici tout seul.",
  reports: "Ce qui a été signalé ici",
  moreReports: (n) => (n === 1 ? "1 autre rapport" : `${n} autres rapports`),
  repair: "Réparer",
  inspect: "Contrôler ensemble",
  cage: "Arceau : un officiel doit le voir",
  ground: "Ensuite, au sol",
  done: (n) => `Fait (${n})`,
  checks: (n) => (n === 1 ? "1 point" : `${n} points`),
  not: (names) => `pas ${names}, qui y a travaillé`,
  afterRepair: (parts) => `Après la réparation : ${parts}`,
  from: (name, time) => `${name}, depuis ${time}`,
  plannedFor: (names, time) => `${names}, prévu à ${time}`,
  partsHere: "pièces là",
  partsShort: (n) => (n === 1 ? "1 pièce manque" : `${n} pièces manquent`),
  failed: (checks) => `Pas OK : ${checks}`,
  failedPlain: "Contrôle refusé : réparer, puis contrôler à nouveau",
  needsUntil: "accepté seulement jusqu'à une assistance",
  addFound: "Ajouter un constat",
  start: (part) => `Commencer : ${part}`,
  open: (part) => `Ouvrir : ${part}`,
  inspectDo: (n) => (n === 1 ? "Contrôler 1 pièce" : `Contrôler ${n} pièces`),
  waits: (names) => `Attend un contrôleur : ${names}.`,
  waitsNobody: "Attend un contrôleur, et cette épreuve n'en nomme aucun. Prévenez votre responsable.",

  title: (zone) => `Contrôle : ${zone}`,
  answered: (name, n, of) => `${name} · ${n} réponses sur ${of}`,
  parts: "Ce que ce contrôle couvre",
  at: {
    none: "Points de contrôle",
    air: "En l'air, roue montée",
    off: "Roue déposée",
    ground: "Au sol",
  },
  ok: "OK",
  notOk: "Pas OK",
  notDone: "Non fait",
  why: "Pourquoi pas",
  must: (check) => `${check} (doit être OK)`,
  rule: "Sans réparation, un accord n'accepte que ce qui est inconnu, marqué ou usé, et ce qui est plié jusqu'à une assistance. Ce qui est pire est d'abord réparé.",
  decide: "Contrôle de l'équipe seulement. Les commissaires techniques et le règlement décident.",
  file: "Noter ce que vous avez trouvé",
  fileWhich: "Quelle pièce",
  fileHow: "Quelle gravité",
  fileOther: "Une autre pièce de cet endroit",
  fileDo: "Noter maintenant",
  fileNeeds: "Choisissez d'abord la pièce et la gravité.",
  filed: (what) => `Noté : ${what}. C'est maintenant un travail.`,
  until: "Valable jusqu'à",
  untilAlways: "Sans limite",
  untilService: (s) => `Assistance ${s}`,
  note: "Remarque",
  sign: (passed, failed) =>
    failed === 0
      ? `Signer : ${passed} accepté(s)`
      : passed === 0
        ? `Signer : ${failed} refusé(s)`
        : `Signer : ${passed} accepté(s), ${failed} refusé(s)`,
  signNothing: "Signer",
  lacks: {
    answers: (checks) =>
      `Répondez à chaque point avant de signer. Encore ouverts : ${checks[0] ?? ""}${checks.length > 1 ? " …" : "."}`,
    why: (checks) => `Écrivez pourquoi ce n'est pas fait : ${checks.join(" ; ")}.`,
    ok: () => "Rien n'a été contrôlé : il n'y a rien à signer.",
  },
  hinders: {
    own: (part) => `${part} : vous y avez travaillé, votre accord ne comptera pas. Un autre contrôleur doit contrôler.`,
    repair: (part) => `${part} : réparez d'abord. Un accord ne compte pas avant.`,
    until: (part) => `${part} : un accord ne compte qu'avec une assistance jusqu'à laquelle il vaut.`,
    must: (part, checks) => `${part} : reste retenu tant que ceci n'est pas OK : ${checks.join(" ; ")}.`,
    official: (part) =>
      `${part} : écrivez quel officiel l'a vu et ce qu'il a dit. Votre propre coche ne compte pas pour un arceau.`,
  },
  role: (names) => `Un contrôle ne compte que d'un contrôleur. Allez chercher l'un d'eux : ${names}.`,
  nobody: "Un contrôle ne compte que d'un contrôleur, et cette épreuve n'en nomme aucun. Prévenez votre responsable.",
  signed: "Signé et enregistré sur ce téléphone",
  nothing: "Rien ici n'attend de contrôle.",
  toPlaceBack: (zone) => `Retour : ${zone}`,
};
