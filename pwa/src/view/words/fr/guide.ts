/** Mots du chemin guidé vers une première épreuve. */

import type { Words } from "../../../kit/language";
import type { guide as english } from "../guide";

export const guide: Words<typeof english> = {
  link: "Pas à pas",
  steps: "Étapes",
  step: {
    event: "L'épreuve",
    cars: "Voitures",
    people: "Personnes",
    stages: "Spéciales",
    services: "Assistances",
    rates: "Barème",
    van: "Stock du camion",
    agreements: "Contrats",
    changes: "Mettre en vigueur",
    invite: "Faire entrer",
  },
  how: {
    event: "Son nom et son fuseau horaire. Ou prenez le dossier de l'an dernier ou un tableur : une feuille par table.",
    cars: "Une ligne par voiture : son numéro, et le nom que l'équipe lui donne.",
    people:
      "Écrivez le nom ; l'identifiant suit tout seul. Rôles : driver ; co-driver ; mechanic ; inspector ; manager.",
    stages:
      "Une ligne par spéciale avec sa longueur. Le départ est facultatif ; après la première ligne, une heure comme 9:26 suffit.",
    services: "Quand la voiture est attendue, les minutes d'un contrôle à l'autre, et la spéciale d'avant.",
    rates:
      "Ce que chaque réparation prend et coûte. Le barème fourni est un point de départ, pas mesuré : mettez-y vos chiffres.",
    van: "Ce qui est à bord. Les pièces sont ensuite décomptées à mesure.",
    agreements: "Qui paie ce qui casse sur une voiture louée.",
    changes: "Le serveur parcourt le tout et nomme chaque faute avec sa case.",
    invite: "Un code pour le téléphone de chacun. Il sert une fois, pendant une semaine.",
  },
  done: "fait",
  optional: "facultatif",
  next: (step) => `Suite : ${step}`,
  leave: "Laissez-le pour l'instant : le projet reste sur cet appareil.",
  takeRates: "Prendre le barème fourni",
  takeVan: "Prendre le stock de l'exemple",
  taking: "En route …",
  taken: (rows) => `${rows} lignes sont dans le projet.`,
  replaces: (rows) => `Les ${rows} lignes qui sont ici disparaîtraient.`,
  notInForce: "Personne ne peut entrer avant que l'épreuve soit en vigueur.",
  code: (name) => `Code pour ${name}`,
  finish: "Tous les écrans",
  pattern: "Commencer par",
  patterns: { empty: "Rien", sample: "L'épreuve d'exemple, à changer" },
};
