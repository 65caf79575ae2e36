/** Mots de l'écran des incidents : quels rapports sont d'un même choc, qui et quoi d'autre y était. */

import type { Words } from "../../../kit/language";
import type { incidents as english } from "../incidents";

export const incidents: Words<typeof english> = {
  title: "Incidents",
  what: "Un incident est un choc, quoi qu'il ait cassé. Les rapports restent seuls jusqu'à ce que quelqu'un les groupe, ou qu'un rapport dise quel choc en est la cause.",
  none: "Aucun choc de cette voiture n'est sur ce téléphone.",
  roadOnly: "Sur la route, ce téléphone ne montre que vos propres rapports.",
  group: "Grouper les rapports d'un choc",
  formNew: "Rapports d'un même choc",
  formChange: "Modifier l'incident",
  which: "Quels rapports",
  moves: (title) => `Vient de l'incident « ${title} » : il passe ici.`,
  unseen: (n) =>
    n === 1 ? "1 rapport qui n'est pas montré ici y reste." : `${n} rapports qui ne sont pas montrés ici y restent.`,
  places: (places) => `Où : ${places} (selon les rapports)`,
  name: "Nom de l'incident",
  nameHint: "Par exemple : le talus après le pont",
  property: "Bien touché qui n'est pas à nous",
  propertyUsual: ["Clôture", "Portail", "Mur", "Poteau", "Une autre voiture"],
  propertyWhat: "Quoi exactement, à qui, à quel point",
  propertyNote:
    "Rien à voir sur votre propre voiture ? Notez-la d'abord avec l'endroit seul : l'incident a besoin d'un rapport.",
  othersInvolved: "Des tiers étaient impliqués",
  others: "Les tiers",
  othersNote:
    "Notez ce que vous avez vu et ce qu'on vous a dit, pas à qui la faute. Sur une voie publique, le code de la route passe avant.",
  field: {
    name: "Leur nom et leur adresse",
    plate: "Leur plaque",
    insurer: "Leur assureur et leur police",
    witnesses: "Témoins",
    police: "Numéro de la police",
  },
  more: "Plus à ce sujet",
  injured: "Quelqu'un de blessé",
  injuredNote:
    "Les personnes d'abord : le numéro d'urgence du carnet d'itinéraire. Écrivez qui et comment, pas plus que vous ne savez.",
  reportedTo: "Qui a été prévenu (officiel, police), quand",
  needReport: "Cochez au moins un rapport : l'incident en tient sa spéciale et son km.",
  save: "Enregistrer l'incident",
  cancel: "Retour sans enregistrer",
  sayMore: "Déclarer plus …",
  change: "Modifier …",
  apart: "Défaire",
  apartOf: (title) => `Défaire : ${title}`,
  ofHit: (what, title) => `${what} ${title}`,
  grouped: (name, time) => `Noté par ${name}, ${time}`,
  notNamed: "Sans nom",
  drove: (name) => `${name} conduisait`,
  propertyTag: "Bien touché",
  othersTag: "Tiers impliqués",
  injuredTag: "Quelqu'un de blessé",
  count: (n) => (n === 1 ? "1 rapport" : `${n} rapports`),
  withdrawn: "retiré",
  declaration: "Déclaration de biens touchés",
  declarationNote:
    "Une page à signer par l'équipage, en anglais. Le serveur la fait de ce qui a été envoyé : envoyez d'abord.",
  print: "À imprimer (PDF)",
};
