/** Mots des relevés : chiffres d'une assistance, usure, ce qui expire. */

import { decimal, type Words } from "../../../kit/language";
import type { readings as english } from "../readings";
import { corner, level } from "./walk";

const reading: Words<typeof english>["reading"] = {
  "brake reservoir": "Bocal de frein",
  "clutch reservoir": "Bocal d'embrayage",
  "tyre pressure": "Pression des pneus",
  "brake pad": "Plaquettes de frein",
  tread: "Profil des pneus",
  "tyre number": "Numéro de pneu",
  "damper clicks": "Clics d'amortisseur",
  "ride height": "Hauteur de caisse",
  "front toe": "Parallélisme avant, ouvert positif",
  "rear toe": "Parallélisme arrière, ouvert positif",
  "peak water temperature": "Température d'eau maximale",
  "peak oil temperature": "Température d'huile maximale",
  "lowest oil pressure": "Pression d'huile minimale",
  "oil added": "Huile ajoutée",
  "coolant added": "Liquide de refroidissement ajouté",
  "brake fluid added": "Liquide de frein ajouté",
  odometer: "Compteur",
};

export const readings: Words<typeof english> = {
  link: "Relevés",
  title: "Relevés",
  at: (service) => `Assistance ${service}`,
  between: "Hors assistance",
  how: "Ce que vous touchez est enregistré, rien d'autre. Chacun part du dernier.",
  reading,
  corner,
  level,
  last: (value, when, by) => `dernier ${value}, ${when}, ${by}`,
  lastShort: (value) => `dernier ${value}`,
  never: "jamais relevé",
  asLast: (what) => `${what} : tout comme la dernière fois`,
  asLastShort: "Tout comme la dernière fois",
  readFirst: "Lisez le niveau avant de compléter.",
  fell: "Le bocal de frein a baissé. Enregistrer signale aussi les freins à regarder : la voiture est retenue jusqu'à ce qu'un contrôleur ait regardé.",
  fellLow:
    "Le bocal de frein est bas. Enregistrer signale aussi les freins à regarder : la voiture est retenue jusqu'à ce qu'un contrôleur ait regardé.",
  fellNote: (before, now, where) =>
    `Le bocal de frein a baissé de ${before} à ${now}, lu ${where}. Cherchez une fuite ; des plaquettes usées le font aussi baisser.`,
  lowNote: (now, where) =>
    `Bocal de frein trouvé ${now}, lu ${where} ; aucun relevé avant. Cherchez une fuite ; des plaquettes usées le font aussi baisser.`,
  inService: (service) => `à l'assistance ${service}`,
  outside: "hors assistance",
  first: "Freins et pneus",
  suspension: "Après le travail sur la suspension",
  askedAfter: (corner, part, what) => `${corner}, ${part} : ${what.join(" ; ")}`,
  engine: "Moteur",
  more: "Suspension, liquides ajoutés, numéros de pneus, compteur, embrayage",
  touched: (n) => (n === 1 ? "Enregistrer 1 relevé" : `Enregistrer ${n} relevés`),
  nothing: "Touchez ce que vous lisez, puis enregistrez.",
  saving: "Enregistrement …",
  undo: "Annuler le dernier toucher",
  saved: (n) => (n === 1 ? "1 relevé enregistré." : `${n} relevés enregistrés.`),
  wrong: "Un relevé faux se corrige en relisant : le dernier compte.",
  seeQueue: "Voir les travaux",

  wear: "Usure",
  tyres: "Pneus par numéro",
  tyre_head: "Numéro",
  tyre_km_head: "Km de spéciale",
  tyreOff: "démonté",
  wearNone: "Il faut deux relevés de plaquettes ou de profil avec des spéciales entre eux.",
  wearOf: { "brake pad": "Plaquettes de frein", tread: "Profil des pneus" },
  wearName: (what) => `Usure : ${what.toLowerCase()}`,
  corner_head: "Coin",
  now_head: "Maintenant, mm",
  rate_head: "mm en 100 km de spéciale",
  left_head: "Km de spéciale restants",
  limit: (mm) =>
    `À changer à ${decimal(mm, 1)} mm : pratique courante, sans source. La limite de l'équipe passe avant.`,
  km: (n) => n.toFixed(0),
  unknown: "–",
  below: "à la limite",
  jump: (where, what, mm, km) =>
    `${where}, ${what.toLowerCase()} : ${decimal(mm, 1)} mm en ${km.toFixed(0)} km de spéciale. Ressemble à un dommage, pas à de l'usure.`,
  jumpLog: (where, what) => `${where}, ${what.toLowerCase()} : le noter`,
  jumpNote: (what, mm, km) =>
    `${what} : ${decimal(mm, 1)} mm en ${km.toFixed(0)} km de spéciale, bien plus que d'habitude.`,

  dated: "Dates de validité et plombs",
  dates: {
    expired: (day) => `Expiré le ${day}. Remplacez-le, ou montrez-le aux officiels avant que la voiture parte.`,
    during: (day) => `Expire le ${day}, avant la fin de l'épreuve.`,
    soon: (day) => `Expire le ${day}, dans les 30 jours.`,
    later: (day) => `Jusqu'au ${day}.`,
    none: () => "",
  },
  seal: (seal) => `Plomb ${seal} : appelez le commissaire technique avant d'ouvrir.`,
};
