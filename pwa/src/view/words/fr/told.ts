/** Mots de ce que chacun apprend sur qui peut être cru. */

import type { Words } from "../../../kit/language";
import type { told as english } from "../told";

export const told: Words<typeof english> = {
  rebuildTitle: "Le journal est en reconstruction",
  rebuild:
    "Ce journal est en reconstruction. Jusqu'à ce qu'un propriétaire y mette fin, les téléphones des responsables peuvent rapporter des appareils et des entrées qu'aucune signature ne prouve ici.",
  showDone: "Montrer ce qui a été rapporté",
  nothingDone: "Rien n'a été rapporté jusqu'ici.",
  end: "Mettre fin à la reconstruction",
  done: (act, what, name, time) => `${time}, ${name} : ${act} ${what}`.trim(),
  act: {
    device: "a rapporté la clé de l'appareil",
    trusted: "a rapporté des entrées non signées que le serveur perdu croyait, de l'épreuve",
    review: "a pris l'entrée non signée",
    ended: "a mis fin à la reconstruction",
  },
  secondTitle: "Invité à nouveau",
  second: (by, name, time) =>
    `${by} a fait un nouveau lien d'entrée pour ${name}, qui a déjà un téléphone ici (${time}). Si ${name} n'en sait rien, quelqu'un d'autre parle peut-être en son nom : faites exclure ce téléphone.`,
  secondMine: (by, time) =>
    `${by} a fait un nouveau lien d'entrée à votre nom (${time}). Si vous n'en savez rien, quelqu'un d'autre parle peut-être en votre nom : faites exclure ce téléphone.`,
  joined: (device) => `Un téléphone est entré avec : ${device}.`,
  notJoined: "Aucun téléphone n'est encore entré avec.",
  byServer: "Qui tient le serveur",
  know: "Je suis au courant",
};
