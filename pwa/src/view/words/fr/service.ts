/** Mots de l'écran d'assistance. */

import type { Words } from "../../../kit/language";
import { minutesAndSeconds } from "../../../kit/time";
import type { service as english } from "../service";

const penalty = (s: number) => (s === 0 ? ", sans pénalité" : ` : ${minutesAndSeconds(s)} de pénalité`);

export const service: Words<typeof english> = {
  title: "Assistance",
  more: "De cette assistance",
  which: "Quelle assistance",
  name: (s, after) => (after === null ? `Assistance ${s}` : `Assistance ${s}, après ${after}`),
  planned: (time, minutes) => `Entrée prévue à ${time}, ${minutes} min de contrôle à contrôle`,
  plannedNone: (minutes) => `${minutes} min de contrôle à contrôle`,
  inTime: "Heure d'entrée, à l'horloge des officiels",
  enter: (time) => `Nous sommes entrés : ${time}`,
  outTime: "Heure de sortie, à l'horloge des officiels",
  leave: (time) => `Nous sommes sortis : ${time}`,
  isIn: (time) => `Entrée à ${time}`,
  isOut: (time) => `Sortie à ${time}`,
  due: "Sortie due",
  dueNote:
    "Sortir dans la minute prévue, c'est être à l'heure. C'est l'heure officielle qui compte ; l'horloge de ce téléphone peut différer.",
  left: (min) => (min === 1 ? "reste 1 minute" : `restent ${min} minutes`),
  now: "Sortie due dans cette minute",
  over: (min) => (min === 1 ? "1 minute de retard" : `${min} minutes de retard`),
  longOver: "Plus d'une heure de retard",
  wrongIn: "Annuler : nous ne sommes pas entrés",
  wrongOut: "Annuler : nous ne sommes pas sortis",
  stepNote: "Part de l'horloge de ce téléphone. Réglez-la sur celle des officiels.",
  seeQueue: "Voir les travaux",
  undoReason: "mis-tap",
  allDone: "Toutes les assistances de cette épreuve sont faites.",
  driver: "Qui conduit à partir de maintenant",
  driverNow: (name) => `Au volant : ${name}`,
  driverUnknown: "Personne n'a dit qui conduit.",
  min: "min",
  leaveBay: (bay, due) => `restent : quitter l'emplacement à ${bay}, sortie due ${due}`,
  mine: "Votre prochaine tâche",
  nothingNext: "Rien de prévu",
  everybody: "Tout le monde",
  visit: "Entrée et sortie",
  out: {
    at: (clock) => `Sortie à ${clock}`,
    onTime: "À l'heure",
    late: (min, s) => `${min} min de retard${penalty(s)}`,
    early: (min, s) => `${min} min d'avance${penalty(s)}`,
    beyond: (min, limit) => `${min} min de retard : plus que les ${limit} min permises à un contrôle`,
    aboard: "À bord pour la route",
    nothing: "rien de noté",
  },
  release: {
    title: "Laisser partir la voiture",
    back: "Retour à l'assistance",
    what: "Un fait dans le journal : la voiture quitte cette assistance. Les officiels et les règlements décident si elle peut rouler.",
    asks: "Avant le départ",
    ask: {
      nuts: (where) => `${where} : écrous de roue serrés au couple au sol, par qui ?`,
      toe: () => "Parallélisme et volant droits, au sol ?",
      pedal: () => "Pédale de frein ferme, moteur tournant ?",
      tools: () => "Outils comptés, rien d'oublié sur la voiture ?",
    },
    done: "Fait",
    notDone: "Non fait",
    why: "Pourquoi pas",
    answerFirst: (n) =>
      n === 1
        ? "1 question reste ouverte. Répondez-y d'abord."
        : `${n} questions restent ouvertes. Répondez-y d'abord.`,
    sayWhy: "Écrivez pourquoi ce n'est pas fait.",
    onHold: "Le journal retient la voiture. Dites qui a décidé et pourquoi, et signez avec votre code secret.",
    notKnown:
      "On ne sait pas ici ce que contient le journal. Dites qui a décidé et pourquoi, et signez avec votre code secret.",
    reason: "Motif, et qui a décidé",
    noteOptional: "Remarque (peut rester vide)",
    pinNew:
      "Vous n'avez pas encore de code secret sur ce téléphone, et un départ retenu en demande un. Choisissez-le maintenant.",
    button: "Laisser partir la voiture",
    buttonHold: "Laisser partir la voiture retenue",
    released: (name, time) => `Départ donné par ${name}, ${time}`,
    needReason:
      "Écrivez d'abord le motif : il est demandé tant que la voiture est retenue ou que quelque chose n'est pas fait.",
  },
};
