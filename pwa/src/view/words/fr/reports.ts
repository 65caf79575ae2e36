/** Mots de l'écran des rapports. */

import type { Words } from "../../../kit/language";
import type { reports as english } from "../reports";

export const reports: Words<typeof english> = {
  title: "Rapports",
  none: "Ce que vous notez apparaît ici, avec son envoi.",
  noneTitle: "Rien de noté encore",
  logOne: "Noter un choc",
  count: (n) => (n < 2 ? `${n} rapport` : `${n} rapports`),
  waiting: (n) => `${n} en attente d'envoi`,
  placeOnly: "endroit seul",
  sending: { waiting: "En attente", sent: "Envoyé", attention: "Demande attention" },
  more: "Plus sur ces rapports",
  ways: {
    codes: "Envoyer par code QR",
    handover: "Recevoir d'un autre téléphone",
    incidents: "Incidents : chocs, biens, tiers",
  },
  nothingSeen: "Rien vu",
  seat: "depuis le siège",
  round: "tour de la voiture fait",
  twoVersions:
    "Deux versions : des personnes ont modifié ce rapport sans se voir. La liste retient la pire des deux jusqu'à ce qu'une modification les remplace.",
  join: "N'en faire qu'une",
  version: (name, time) => `${name}, ${time}`,
  amend: "Modifier",
  withdraw: "Retirer",
  withdrawWhy: "Pourquoi le retirer ?",
  reasons: ["Noté par erreur", "Même choc, dit deux fois", "Mauvaise voiture", "Regardé de nouveau : rien"],
  reasonOther: "Autre motif",
  withdrawDo: "Retirer ce rapport",
  withdrawNote: "Les constats sur les freins, la direction et l'arceau restent à contrôler, même retirés.",
  withdrawn: "Retiré",
  refusedTitle: "Demande attention",
  refusedWhat: (title) => `Le serveur ne l'a pas pris : ${title}.`,
  refusedDo:
    "C'est gardé sur ce téléphone, rien n'est perdu. Prévenez votre responsable : il peut le regarder sur le serveur. D'ici là la voiture montre RETENUE.",
  fix: {
    unsigned:
      "Il n'a pas de signature. Demandez à votre responsable de l'accepter ; rejoignez de nouveau avec un nouveau code par le bon lien https, pour que la suite soit signée.",
    "unknown-device":
      "Le serveur ne connaît pas encore l'appareil qui l'a écrit. Il comptera de lui-même quand le téléphone d'un responsable aura atteint ce serveur.",
    "no-pin":
      "Cette épreuve n'admet contrôles et sorties retenues qu'avec un code PIN, et ce téléphone est entré sans. Entrez à nouveau avec un nouveau lien, choisissez un code PIN et recommencez.",
    "bad-signature":
      "Sa signature ne correspond pas : il a été modifié en chemin. Notez-le de nouveau, puis signalez celui-ci à votre responsable.",
    "wrong-author":
      "Il nomme une autre personne que celle de cet appareil. Choisissez la bonne personne en haut et notez-le de nouveau.",
    "shut-out":
      "Ce téléphone a été bloqué avant cet envoi. Demandez à votre responsable de le regarder. Ce que vous notez après avoir rejoint de nouveau compte.",
    "odd-time":
      "Il nomme une année qui ne peut pas être juste. Réglez l'horloge de ce téléphone et notez-le de nouveau, puis signalez celui-ci à votre responsable.",
    conflict: "Une autre entrée a le même numéro. Notez-le de nouveau, puis signalez celui-ci à votre responsable.",
    "too-large": "C'est trop long. Raccourcissez la remarque et notez-le de nouveau.",
    "unknown-version":
      "L'application de ce téléphone est plus récente ou plus ancienne que le serveur. Mettez l'un des deux à jour ; l'envoi se fait alors.",
    "unknown-kind":
      "L'application de ce téléphone est plus récente ou plus ancienne que le serveur. Mettez l'un des deux à jour ; l'envoi se fait alors.",
    "set-aside-full":
      "Elle n'est que sur ce téléphone. Votre responsable doit regarder ce qui en est venu ; elle est renvoyée alors.",
    "wrong-shape":
      "Quelque chose n'y est pas comme le serveur l'attend. Notez-le de nouveau, puis signalez celui-ci à votre responsable.",
  },
  kind: {
    "report.filed": "Rapport",
    "report.amended": "Rapport modifié",
    "report.withdrawn": "Rapport retiré",
    "stage.nothing_seen": "Rien vu",
    "service.entered": "Entrée en assistance",
    "service.left": "Sortie d'assistance",
    "driver.changed": "Qui conduit",
    "control.entered": "Travail interdit",
    "control.left": "Travail de nouveau permis",
    "driver.asked": "Pilote interrogé",
    "job.started": "Travail commencé",
    "job.stopped": "Travail arrêté",
    "job.finished": "Travail terminé",
    "job.deferred": "Travail reporté",
    "inspection.passed": "Contrôle : accepté",
    "inspection.failed": "Contrôle : refusé",
    "car.released": "Départ de la voiture",
    "task.started": "Tâche commencée",
    "task.finished": "Tâche terminée",
    "briefing.acknowledged": "Briefing lu",
    "cost.adjusted": "Coût corrigé",
    "incident.grouped": "Rapports d'un même choc",
    "reading.taken": "Relevé",
    "handover.signed": "État des lieux",
    "charge.decided": "Qui paie",
    "charge.added": "Autres frais",
    "part.fitted": "Pièce montée",
    "part.retained": "Pièce cassée gardée",
    "statement.issued": "Décompte",
    "statement.line_settled": "Ligne d'un décompte",
    "entry.voided": "Annulation",
    "photo.linked": "Photo",
    "voice.linked": "Note vocale",
  },
  drives: (how) => `Roule : ${how.toLowerCase()}`,
  fromDirection: (d) => `Choc de : ${d}`,
};
