/** Mots des listes de contrôle, et les contrôles usuels : français courant du métier, de mémoire. */

import type { Words } from "../../../kit/language";
import type { looks as english } from "../looks";

export const looks: Words<typeof english> = {
  title: "Listes de contrôle",
  how: "Ce qu'un contrôleur passe en revue, par type de pièce. Pratique courante, et celle de votre équipe là où elle a écrit la sienne ; les consignes du constructeur passent avant.",
  decide: "Les commissaires techniques et le règlement de l'épreuve décident.",
  group: {
    brake: "Freins",
    steering: "Direction",
    "wheel-hold": "Ce qui tient les roues",
    restraint: "Harnais et sièges",
    fuel: "Carburant",
    fire: "Extinction et coupe-circuit",
    throttle: "Accélérateur",
    cage: "Arceau",
    other: "Tout le reste",
  },
  edit: "Modifier ces listes",
  link: "Listes de contrôle",
  named: (check) => CHECKS[check] ?? check,
};

export const CHECKS: Record<string, string> = {
  "No crack, bend or leak seen": "Ni fissure, ni déformation, ni fuite vue",
  "Hose free on full lock and full drop": "Flexible libre à fond de braquage et de détente",
  "Fixings tight and secured": "Fixations serrées et freinées",
  "Fluid level right, cap on": "Niveau de liquide bon, bouchon en place",
  "No leak with the pedal pressed hard": "Pas de fuite, pédale enfoncée à fond",
  "Pedal firm after pumping": "Pédale ferme après pompage",
  "Boots whole, no grease out": "Soufflets entiers, pas de graisse dehors",
  "No play at the joints, by hand and lever": "Pas de jeu aux rotules, à la main et au levier",
  "Lock to lock, nothing rubs or binds": "De butée à butée, rien ne frotte ni ne force",
  "Toe checked on the ground": "Parallélisme vérifié au sol",
  "No crack or bend seen, paint at the seams whole": "Ni fissure ni déformation vue, peinture des cordons intacte",
  "Wheel turns true, no rub, no bearing noise": "Roue qui tourne rond, sans frotter, sans bruit de roulement",
  "Nuts torqued by another person": "Écrous serrés au couple par une autre personne",
  "Webbing not cut, frayed or stretched": "Sangles ni coupées, ni effilochées, ni étirées",
  "Buckle latches and lets go": "Boucle qui verrouille et qui libère",
  "Anchors and seat mounts tight, no crack round them": "Ancrages et fixations de siège serrés, sans fissure autour",
  "Dates on the labels not past": "Dates des étiquettes non dépassées",
  "No smell, no drip": "Ni odeur, ni goutte",
  "Lines clear of edges and heat": "Conduites loin des arêtes et de la chaleur",
  "No leak with the pump on, extinguisher at hand": "Pas de fuite pompe en marche, extincteur à portée",
  "Bottles charged, dates not past": "Bouteilles chargées, dates non dépassées",
  "Lines and nozzles whole, pointing right": "Conduites et buses entières, bien orientées",
  "Pulls and cut-off free, inside and out": "Tirettes et coupe-circuit libres, dedans et dehors",
  "Closes by itself every time": "Se referme de lui-même à chaque fois",
  "Cable, linkage or pedal free, nothing under it": "Câble, tringlerie ou pédale libres, rien dessous",
  "Padding and trim off, tube seen bare": "Mousses et garnitures déposées, tube vu à nu",
  "No dent, bend or crack in tube or weld": "Ni bosse, ni pli, ni fissure dans le tube ou la soudure",
  "Mounting plates and the floor round them flat": "Platines et plancher autour bien plans",
  "Bolts tight and secured": "Vis serrées et freinées",
  "Seen clean and bare": "Vu propre et à nu",
};
