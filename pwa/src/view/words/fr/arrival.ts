/** Mots de l'arrivée de la voiture : ce qu'on demande au pilote, et où personne ne peut y travailler. */

import type { Words } from "../../../kit/language";
import type { arrival as english } from "../arrival";

export const arrival: Words<typeof english> = {
  link: "Débriefing du pilote",
  title: "Débriefing du pilote",
  how: "Sept questions, un toucher chacune. Ce qui n'est pas comme avant devient un rapport.",
  allBefore: "Tout comme avant",
  asBefore: "Comme avant",
  changed: "Pas comme avant",
  what: "Quoi donc ?",
  whatNote: "Vous hésitez ? Laissez : la question elle-même est notée.",
  question: {
    steering: "Va droit, sans jeu ?",
    pedal: "Pédale de frein comme il faut ?",
    handbrake: "Frein à main ?",
    noise: "Bruits, chocs, vibrations ?",
    gearbox: "Boîte et embrayage ?",
    lamps: "Températures, voyants, moteur ?",
    hit: "Touché quelque chose ?",
  },
  topic: {
    steering: "direction",
    pedal: "pédale de frein",
    handbrake: "frein à main",
    noise: "bruit ou vibration",
    gearbox: "boîte ou embrayage",
    lamps: "températures, voyants ou moteur",
    hit: "quelque chose de touché",
  },
  noted: (topics) => `Le pilote dit pas comme avant : ${topics.join(", ")}`,
  save: (n) => (n === 0 ? "Enregistrer" : n === 1 ? "Enregistrer 1 réponse" : `Enregistrer ${n} réponses`),
  saving: "Enregistrement …",
  needs: "Rien n'a encore de réponse. Touchez une réponse, ou Tout comme avant.",
  control: { "control-zone": "zone de contrôle", regroup: "regroupement", "parc-ferme": "parc fermé" },
  where: "Où le travail est interdit",
  whereNote:
    "Tant que la voiture y est, les boutons de travail sont bloqués. Le règlement de l'épreuve et ses officiels décident de ce qui est permis.",
  into: (name) => `Entrée : ${name}`,
  out: "Sortie",
  since: (name, time) => `En ${name} depuis ${time} : personne ne travaille sur la voiture.`,
  look: "Regarder, ne pas toucher. Un rapport peut s'écrire à tout moment.",
  shut: (name, time) => `Fermé : la voiture est en ${name} depuis ${time}, où personne ne peut y travailler.`,
  before: (time) => `Seulement ce qui a été fait avant. C'est noté comme dit à ${time}.`,
  toOut: "Elle est ressortie ? Dites-le sur la page Assistance",
  undo: "Annuler : elle n'y était pas",
  undoReason: "erreur de toucher",
};
