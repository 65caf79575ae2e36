/** Mots de l'écran des travaux : barre de retenue, parties, fiches. */

import type { Words } from "../../../kit/spoken";
import type { queue as english } from "../queue";
import { action } from "./action";

export const queue: Words<typeof english> = {
  title: "Travaux",
  release: "Ce que contient le journal sur cette voiture",
  holdCount: (n) => (n === 1 ? "1 motif" : `${n} motifs`),
  fresh: "Nouveau",
  nextTo: (what) => `Suite possible de : ${what}`,
  hold: "RETENUE",
  nothing: "Rien d'ouvert dans le journal",
  unknown: "Pas encore connu",
  holdWhy: "Retenue jusqu'à ce que chacun de ces points soit regardé :",
  nothingNote:
    "Cela dit seulement ce que contient le journal. Les officiels, les règlements et les gens du métier décident.",
  needs: {
    review: "une écriture a été mise de côté : un responsable doit la regarder",
    "re-inspection": "contrôle refusé : réparer, puis contrôler de nouveau",
    official: "arceau : un officiel doit le voir",
    inspection: "à contrôler par un contrôleur",
  },
  toAside: "Voir ce qui a été mis de côté",
  signaturesOff:
    "Les signatures sont désactivées sur cette épreuve : le journal ne prouve pas qui a écrit quoi, contrôles compris.",
  tick: {
    open: "Cocher plusieurs travaux faits …",
    title: "Plusieurs travaux à la fois",
    formTitle: "Cocher plusieurs travaux faits",
    which: "Ce qui a été fait",
    pickJob: "Cochez au moins un travail qui a été fait.",
    pickWho: "Cochez qui l'a fait : qui a réparé ne signe pas le contrôle.",
    note: "Chacun est terminé définitivement, avec l'action et les pièces de son estimation. Ce qui diffère se termine sur la page du travail.",
    finish: (n) => (n < 2 ? `Terminer ${n} travail` : `Terminer ${n} travaux`),
  },
  heard: (time) => `Serveur entendu ${time}`,
  heardNever: "Serveur pas encore entendu",
  workedOutHere: "Calculé sur ce téléphone d'après ce qu'il contient",
  check: (hash) =>
    `Contrôle de liste ${hash} : les téléphones qui montrent le même contrôle ont la même liste de travaux.`,
  unreachable: "injoignable en ce moment",
  sections: { inspect: "À contrôler d'abord", must: "À faire", worth: "Utile à faire", done: "Fait" },
  empty: "Aucun travail. Les chocs notés apparaissent ici d'eux-mêmes.",
  news: (n) => (n === 1 ? "1 nouveau depuis votre passage" : `${n} nouveaux depuis votre passage`),
  seen: "Vu",
  unsentTitle: (n) =>
    n === 1 ? "1 écriture pas encore dans la liste" : `${n} écritures pas encore dans la liste`,
  unsentNote: "Écrites sur ce téléphone, le serveur ne les a pas encore mises dans la liste :",
  unsentOwnTitle: (n) => (n === 1 ? "1 écriture pas encore envoyée" : `${n} écritures pas encore envoyées`),
  unsentOwnNote:
    "Pas encore au serveur. Ce qui attend est compté dans cette liste, ce qui a été refusé ne l'est pas :",
  unseenTitle: "La voiture est repartie avec ceci, sans être vu",
  unseenNote:
    "Signalé pour le temps d'avant la sortie d'assistance, mais personne ne le savait sur place. Prévenez l'équipage dans les limites du règlement, et regardez à son retour.",
  unseenAt: (service) => `sortie de l'assistance ${service}`,
  cornerLook: (n, zone) => `Contrôler les ${n} : ${zone}`,
  state: {
    open: "Ouvert",
    started: "En cours",
    deferred: "Reporté",
    patched: "Dépanné : provisoire, à reprendre",
    accepted: "Accepté en l'état",
    finished: "Terminé",
  },
  inspection: { needed: "À contrôler", failed: "Contrôle refusé", passed: "Contrôlé, accepté", "not-needed": "" },
  action,
  minutes: (min, people) => `${min.replace(".", ",")} min, ${people === 1 ? "1 personne" : `${people} personnes`}`,
  noRate: "aucune ligne dans le barème : à évaluer",
  access: "D'abord",
  parts: "Pièces",
  part: (qty, name) => `${qty} × ${name}`,
  short: (there, short) => `${there} dans le camion : il en manque ${short}`,
  again: "Signalé de nouveau depuis la dernière signature",
  retracted: "Dit une fois, puis changé : encore à regarder",
  saidOnce: (what) => `${what} (dit une fois, puis changé ou retiré)`,
  because: (what) => `Remarqué : ${what}`,
  sealed: "Plombé : appelez le commissaire technique avant de déposer.",
  open: (label) => `Ouvrir le travail : ${label}`,
  doneCount: (n) => `Fait (${n})`,
  totals: (min) => `${min.replace(".", ",")} minutes de mécanicien pour tout ce qui est ouvert`,
  packing: {
    title: "À emporter pour une assistance éloignée",
    what: (car) => `Voiture ${car} : ce que demandent, selon le barème, les travaux ni terminés ni acceptés.`,
    noParts: "Aucune pièce, selon le barème.",
    short: (short) => `il en manque ${short} dans le camion`,
    tools: "Outillage pour",
    withoutRate: (jobs) => `Aucune ligne dans le barème, pensez vous-mêmes aux pièces : ${jobs}.`,
    print: "Imprimer cette liste",
  },
  roadTitle: "Sur la route",
  road: "Ce téléphone envoie à l'assistance et ne montre ici ni travaux, ni retenue, ni conseil : c'est le règlement de l'épreuve. Ce que vous avez envoyé est sous Rapports.",
  card: "Fiche de contrôle, à bord depuis le départ",
  cardNote:
    "Ce que vous pouvez regarder vous-mêmes, dans cet ordre. Elle vient des réglages de la voiture, pas de l'assistance.",
};
