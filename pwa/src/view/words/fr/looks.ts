/** Mots des listes de contrôle, et les contrôles usuels : français courant du métier, de mémoire. */

import type { Words } from "../../../kit/language";
import type { looks as english } from "../looks";

export const looks: Words<typeof english> = {
  title: "Listes de contrôle",
  how: "Ce qu'un contrôleur passe en revue, par type de pièce. Pratique courante, et celle de votre équipe là où elle a écrit la sienne ; les consignes du constructeur passent avant.",
  decide: "Contrôle de l'équipe seulement. Les commissaires techniques et le règlement de l'épreuve décident.",
  at: { air: "en l'air, roue en place", off: "roue déposée", ground: "au sol" },
  must: "doit être OK",
  group: {
    brake: "Freins",
    steering: "Direction",
    "wheel-hold": "Suspension et moyeux",
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

/** Par leur texte anglais : celles de maintenant, et celles qu'une épreuve commencée plus tôt a gardées. */
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
  "Reservoir at MAX, cap on; if it has dropped, the leak is found first: every hose, pipe, caliper":
    "Bocal au MAX, bouchon en place ; s'il a baissé, on trouve d'abord la fuite : chaque flexible, conduite, étrier",
  "Right hose, not twisted, in its bracket, clip in": "Le bon flexible, non vrillé, dans sa patte, agrafe en place",
  "Hose and lead touch neither strut, arm nor rim from lock to lock at full droop":
    "Flexible et câble sans toucher ni la jambe, ni le triangle, ni la jante, de butée à butée, roue pendante",
  "Union or banjo torqued, new washers, paint-marked":
    "Raccord ou banjo serré au couple, joints neufs, repère de peinture",
  "Caliper slides free, pads thick enough, both disc faces without a crack":
    "Étrier coulissant, plaquettes assez épaisses, aucune fissure sur les deux faces du disque",
  "Bled where it was open; pedal held hard 30 s, both ends and nipple dry":
    "Purgé là où c'était ouvert ; pédale enfoncée fort 30 s, les deux bouts et la vis de purge secs",
  "Pedal firm with the engine running": "Pédale ferme moteur tournant",
  "No play with the wheel rocked 3–9 by a helper: track-rod end, rack, column":
    "Pas de jeu, la roue secouée à 3 h–9 h par un aide : rotule de direction, crémaillère, colonne",
  "Every joint locked: inner joint, taper nut torqued, new split pin or nyloc, lock nut tight, thread in at least 1.5 × its diameter, gaiter on":
    "Chaque rotule bloquée : rotule intérieure, écrou conique au couple, goupille ou écrou frein neuf, contre-écrou serré, filetage engagé d'au moins 1,5 × son diamètre, soufflet en place",
  "Track rod, steering arm and rack straight, no grease or fluid out":
    "Biellette, levier et crémaillère droits, ni graisse ni liquide dehors",
  "Lock to lock free, nothing rubs or binds": "De butée à butée libre, rien ne frotte ni ne force",
  "Toe measured, steering wheel straight": "Parallélisme mesuré, volant droit",
  "No play with the wheel rocked 12–6 by a helper, and it spins true and quietly: bearing, ball joint":
    "Pas de jeu, la roue secouée à 12 h–6 h par un aide, et elle tourne rond et sans bruit : roulement, rotule",
  "Arm, upright and strut straight, no cracked paint at welds and pick-up points":
    "Triangle, porte-moyeu et jambe droits, pas de peinture fendue aux soudures et aux ancrages",
  "Suspension bolts torqued and paint-marked, boots whole":
    "Vis de suspension au couple et repérées, soufflets entiers",
  "Wheel nuts torqued by somebody else than who fitted the wheel":
    "Écrous de roue serrés au couple par une autre personne que celle qui a monté la roue",
  "Dates on the belt labels not past": "Dates des étiquettes du harnais non dépassées",
  "Fuel lines clipped, away from edges and heat": "Conduites de carburant fixées, loin des arêtes et de la chaleur",
  "Dry with the pump on, extinguisher manned": "Sec pompe en marche, quelqu'un à l'extincteur",
  "Bottles charged, their dates not past": "Bouteilles chargées, leurs dates non dépassées",
  "Extinguisher lines and nozzles whole, pointing right": "Conduites et buses d'extincteur entières, bien orientées",
  "No oil on hot parts, no hole in a bulkhead, battery clamped":
    "Pas d'huile sur les pièces chaudes, pas de trou dans un tablier, batterie bridée",
  "Cable, linkage and pedal free, nothing under the pedal": "Câble, tringlerie et pédale libres, rien sous la pédale",
  "Cage bolts tight": "Boulons d'arceau serrés",
  "Seen clean and bare, no crack, bend or leak": "Vu propre et à nu, ni fissure, ni déformation, ni fuite",
  "Mounts and clips tight": "Fixations et agrafes serrées",
};
