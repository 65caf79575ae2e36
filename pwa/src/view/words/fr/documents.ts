/** Mots des documents à imprimer. */

import { decimal, type Words } from "../../../kit/language";
import type { documents as english } from "../documents";

export const documents: Words<typeof english> = {
  title: "Documents",
  link: "Documents",
  what: "Le serveur les fait de ce qu'il tient maintenant. Ils disent ce que contient le journal de l'équipe, rien de plus : les officiels, le règlement local et les gens du métier décident.",
  paper: "Papier",
  papers: { a4: "A4", letter: "Letter" },
  language: "Langue",
  languages: { en: "English", fr: "Français" },
  service: "Pour quelle assistance",
  anyService: "Aucune assistance nommée",
  costs: "Coûts de l'épreuve",
  costsOf: (car) => `Coûts de la voiture ${car}`,
  costsUse: "Chaque ligne, les sommes par voiture, jour, spéciale, endroit, pièce et pilote, les corrections, la taxe.",
  ofEvent: "Toutes les voitures de l'épreuve",
  form: {
    pdf: "À imprimer (PDF)",
    csv: "Tableau (CSV)",
    xlsx: "Classeur (XLSX)",
    zip: "Tous les papiers (zip)",
  },
  asWhat: "Sous quelle forme",
  get: {
    pdf: "Obtenir à imprimer (PDF)",
    csv: "Obtenir le tableau (CSV)",
    xlsx: "Obtenir le classeur (XLSX)",
    zip: "Obtenir tous les papiers (zip)",
  },
  before: "Page précédente",
  after: "Page suivante",
  page: (page, of) => `Page ${page} sur ${of}`,
  pageAlt: (name, page, of) =>
    `${name}, page ${page} sur ${of}, comme elle serait imprimée. Le PDF peut être lu à voix haute.`,
  moreLogged: "D'autres saisies sont arrivées depuis.",
  showAgain: "Montrer l'état actuel",
  noSignal: "Pas de réponse du serveur",
  noSignalHow: "C'est le serveur qui fait les papiers et leurs images. Cette page réessaie dès que le serveur répond.",
  noneYet: "Rien à imprimer pour l'instant",
  firstRows: (shown, of) => (shown < of ? `les ${shown} premières lignes sur ${of}` : `${of} lignes`),
  noRows: "Aucune ligne pour l'instant.",
  inside: "Ce qu'il contient",
  inWorkbook: [
    "Lignes : une par travail et par étape d'accès, estimation à côté du réel",
    "Sommes par voiture, jour, spéciale, endroit, pièce et pilote",
    "Corrections, taxe et total",
    "Les montants sont des nombres, les sommes des formules qui se calculent",
    "Ce qui était là avant la remise a sa propre feuille, dans aucune somme",
  ],
  contents: "contents.txt : ce qu'il contient, et pourquoi le reste n'y est pas",
  issuedAsItWas:
    "Le fichier est le décompte tel qu'émis, octet pour octet. L'image est refaite d'après ce qui a été émis.",
  name: {
    "job-sheet": "Feuille de travail",
    "restart-sheet": "Feuille de nouveau départ",
    "hand-over": "Remise de la voiture",
    declaration: "Déclaration de biens touchés",
    record: "Relevé des dommages et contrôles",
    "parts-order": "Commande de pièces",
    statement: "Décompte pour le client",
  },
  use: {
    "job-sheet": "Ce qui est ouvert, dans l'ordre, avec des cases à cocher. Une page.",
    "restart-sheet":
      "Pour la nouvelle vérification technique : trouvé, fait, contrôlé par l'équipe ; une case pour l'officiel. Une page.",
    "hand-over": "Le tour tel qu'il a été signé, départ et retour côte à côte, avec les photos.",
    declaration:
      "Ce qui a été touché et n'est pas à nous, à signer par l'équipage ; une case pour l'officiel. Une page.",
    record: "Tout dans l'ordre du temps, avec photos, pour les assureurs.",
    "parts-order": "Ce qu'il faut pour les travaux ouverts, moins ce qui est dans le camion.",
    statement: "Le dernier émis, dans la langue du client ; le projet s'il n'y en a pas encore.",
  },
  fetching: "Le serveur le prépare …",
  coming: (bytes) => `Arrive : ${size(bytes)}`,
  save: (name, bytes) => `Enregistrer ${name} (${size(bytes)})`,
  share: "Partager …",
  draft: "Brouillon d'e-mail",
  draftHow: "Un brouillon ne peut pas porter le fichier : il est enregistré à côté, à joindre.",
  about: (name, car, event) => [name, car && `voiture ${car}`, event].filter(Boolean).join(", "),
  mail: (about, file) =>
    `${about}\n\nPièce jointe : ${file}\n\nDu carnet de l'équipe. Les officiels, le règlement et la pratique autorisée décident.\n`,
  allTitle: "Tous les papiers de cette voiture",
  allHow:
    "Un seul fichier à envoyer ou à garder : chaque papier qui existe, les décomptes tels qu'émis, et une liste de ce qu'il contient.",
};

const size = (bytes: number): string =>
  bytes < 1e6 ? `${Math.ceil(bytes / 1e3)} ko` : `${decimal(bytes / 1e6, 1)} Mo`;
