/** Ce que dit l'application après un toucher sur les écrans qui viennent plus tard. */

import type { Words } from "../../../kit/language";
import type { laterMessages as english } from "../../../kit/later_messages";

export const seldom: Words<typeof english> = {
  photoFull:
    "Ce téléphone est plein : la photo n'a pas été gardée. Enregistrez le rapport sans elle, puis faites de la place.",
  photoNotWritten:
    "Le téléphone n'a pas pu écrire la photo : elle n'a pas été gardée. Enregistrez le rapport sans elle ; faites de la place, puis recommencez.",
  photoNotHere:
    "Cette photo n'est pas sur ce téléphone, et le serveur est hors d'atteinte : rien n'a été marqué. Réessayez plus tard.",
  photoGone: "Une photo de ce téléphone est devenue illisible",
  photoGoneTodo: "Le rapport est parti sans elle. Reprenez la photo si le dommage est encore visible.",
  notShrunk: {
    unreadable: (why) => `Cette image est illisible (${why}). Reprenez-la en JPEG.`,
    "no-https": () => "Les photos ont besoin de l'adresse https du serveur. Enregistrez le rapport sans elle.",
    "no-jpeg": () => "Ce navigateur ne sait pas faire de JPEG. Enregistrez le rapport sans la photo.",
    "no-worker": () => "La photo n'a pas pu être réduite sur ce téléphone. Enregistrez le rapport sans elle.",
  },
  toldNoServer: "Le serveur n'a pas répondu ; rien n'a été changé. Revenez avec du signal.",
  started: "Commencé.",
  stoppedWork: "Arrêté.",
  patched: "Enregistré : réparation provisoire.",
  finished: "Enregistré : fini.",
  deferred: "Enregistré : reporté.",
  corrected: "Enregistré : corrigé.",
  jobsFinished: (n) => `Enregistré : ${n} travaux finis.`,
  inspected: (passed, failed) =>
    failed === 0
      ? `Signé : ${passed} accepté(s).`
      : passed === 0
        ? `Signé : ${failed} refusé(s).`
        : `Signé : ${passed} accepté(s), ${failed} refusé(s).`,
  released: (service) => `Enregistré : libérée de l'assistance ${service}.`,
  inService: (service) => `En assistance ${service}.`,
  outOfService: (service) => `Sortie de l'assistance ${service}.`,
  retired: "Enregistré : la voiture a abandonné.",
  restarts: "Enregistré : la voiture repart.",
  goesOn: "Enregistré : la voiture continue.",
  retiredSame: "Tout cela est déjà enregistré. Changez d'abord quelque chose.",
  controlIn: "Enregistré : personne n'y travaille.",
  controlGone: "La voiture est déjà sortie du contrôle : rien n'a été enregistré.",
  controlOut: "Enregistré : sortie du contrôle.",
  askedReport: "Enregistré : ce qui n'est pas comme avant est maintenant un rapport.",
  askedSame: "Enregistré : tout comme avant.",
  asideNoServer:
    "Le serveur n'a pas répondu, et lui seul tient ce qui a été mis de côté. Revenez avec du réseau ; rien n'a été changé.",
  noSetup: "Les réglages de l'épreuve ne sont pas encore sur ce téléphone : rien n'a été cherché.",
  noDocument: "Le serveur n'a pas répondu, et lui seul fait les documents. Venez à sa portée et touchez encore.",
  oneHit: "Enregistré : rapports d'un même choc.",
  apart: "Enregistré : ce n'est plus un même choc.",
  fitted: "Enregistré : sa durée de vie compte à partir de là.",
  fittedInspect: "Enregistré comme réparation : un contrôle doit suivre.",
  partKept: "Enregistré : la pièce cassée est gardée.",
  inviteNoServer:
    "Le serveur n'a pas répondu, et lui seul fait les liens d'entrée. Revenez avec du réseau et recommencez.",
  noLetters:
    "Les caractères du papier ne sont pas encore sur ce téléphone. Ouvrez une fois l'application avec du réseau.",
  pinNone: "Vous n'avez pas encore de code sur ce téléphone : choisissez-en un de 6 chiffres. Rien n'a été enregistré.",
  pinShape: "Un code a 6 chiffres, un nombre que vous seul connaissez. Rien n'a été changé.",
  gone: "Cette personne n'est plus sur ce téléphone : rechargez la page.",
  pinNoServer: "Un premier code se choisit juste après l'entrée, avec le serveur là. Rien n'a été changé.",
  pinWait: (s) => `Trop de codes faux : réessayez dans ${s} secondes.`,
  pinWrong: (name, s) =>
    `Ce n'est pas le code de ${name}. ${s > 0 ? `Réessayez dans ${s} secondes.` : "Réessayez."} Oublié ? Un nouveau lien du responsable repart de zéro.`,
  planCarFirst: "Choisissez d'abord la voiture : rien n'a été planifié.",
  planNoServer:
    "Le serveur n'a pas répondu, et lui seul peut planifier. Revenez avec du réseau ; le dernier plan reste ici.",
  taskDone: "Enregistré : fait.",
  told: (name) => `Enregistré : ${name} a été informé.`,
  toldElsewhere:
    "Cette personne n'est pas entrée sur ce téléphone : elle confirme sur le sien. Rien n'a été enregistré.",
  ratesNoServer:
    "Le serveur n'a pas répondu, ce téléphone ne sait donc pas si les minutes sont en vigueur. Revenez avec du réseau : l'écran montre alors le barème tel qu'il est.",
  ratesChanged:
    "Rien n'a été changé : ce qui était montré ici est dépassé. Regardez les propositions, qui sont neuves maintenant.",
  reckonNoServer:
    "Le serveur n'a pas répondu, et lui seul peut calculer ceci. Revenez avec du réseau ; la dernière réponse reste.",
  seasonNobody: "Personne n'est entré sur ce téléphone : rien n'a été changé.",
  reckonNoSetup: "Les réglages de l'épreuve ne sont pas encore sur ce téléphone : rien n'a été calculé.",
  draftNoServer:
    "Le serveur n'a pas répondu. Le projet est gardé sur ce téléphone : revenez avec du réseau et recommencez.",
  statementLong:
    "Ce décompte est trop long pour partir d'un seul morceau. Décidez d'abord des lignes non facturées, ou réglez des chocs à la main. Rien n'a été enregistré.",
  chargeAdded: "Enregistré : des frais autres qu’un dommage.",
  whoPays: "Enregistré : qui paie la ligne.",
  statementIssued: (n) => `Enregistré : le décompte ${n} est émis.`,
  settled: (standing) =>
    `Enregistré : ${{ agreed: "acceptée", disputed: "contestée", withdrawn: "retirée" }[standing]}.`,
  voiceKept: "Note vocale gardée.",
  voiceFull: "Ce téléphone est plein : la note vocale n'a pas été gardée. Faites de la place, puis redites-la.",
  voiceNotWritten:
    "Le téléphone n'a pas pu écrire la note vocale : elle n'a pas été gardée. Faites de la place, puis redites-la.",
  walkCarFirst: "Choisissez d'abord la voiture : rien n'a été gardé.",
  walkFull: "Ce téléphone est plein : le dernier toucher n'a pas été gardé. Faites de la place, puis touchez encore.",
  walkNotWritten:
    "Le téléphone n'a pas pu écrire le dernier toucher : il n'a pas été gardé. Touchez encore ; écrivez sur papier si cela échoue.",
  walkSigned: "Signé, et gardé sur ce téléphone.",
  walkLong: (marks, kit) =>
    `Un tour tient au plus ${marks} marques et ${kit} objets. Réunissez les marques d'un même endroit.`,
  brakesReported: "Les freins sont signalés, à contrôler.",
  readingsSaved: (n) => (n === 1 ? "Enregistré : 1 relevé." : `Enregistré : ${n} relevés.`),
  doubt: {
    "shut-out": "Le téléphone dont elle vient a été exclu",
    "odd-time": "Elle nomme une année que personne ne peut vouloir dire",
    unsigned: "Elle n'a pas de signature, et cette épreuve en exige une",
    "unknown-device": "Aucune clé du téléphone dont elle vient n'est connue ici",
    "wrong-author": "Une autre personne est entrée sur le téléphone dont elle vient",
    "no-pin": "Le téléphone d'où elle vient est entré sans code PIN, et cette épreuve en exige un",
    "bad-signature": "La signature ne va pas : elle a été changée ou contrefaite",
    unchecked: "Les signatures ne peuvent pas être vérifiées sur une page sans https",
  },
};
