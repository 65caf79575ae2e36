/** Mots du plan d'assistance : le demander, les lignes, ce qui reste, ce qu'on gagne avec des minutes et des bras, la feuille. */

import type { Words } from "../../../kit/language";
import type { plan as english, tasks as englishTasks } from "../plan";
import { access } from "./access";
import { action } from "./action";

const minutes = (n: number) => (n < 2 ? `${n} minute` : `${n} minutes`);
const seconds = (n: number) => (n < 2 ? `${n} seconde` : `${n} secondes`);
const timesInTen = (n: number) =>
  n >= 10 ? "plus de 99 fois sur 100" : n === 0 ? "moins d'une fois sur 10" : `${n} fois sur 10`;

export const plan: Words<typeof english> = {
  title: "Plan",
  short: "Plan",
  toPlan: "Planifier cette assistance",
  back: "Retour au plan",
  which: "Quelle assistance",
  onlyCrew: "Le plan est pour ceux qui travaillent sur la voiture : mécaniciens, contrôleurs et responsable.",
  allDone: "Toutes les assistances de cette épreuve sont faites.",
  none: (service) =>
    `Pas encore de plan de l'assistance ${service} sur ce téléphone. Dites qui est là, puis faites-le calculer.`,
  overnight: (clock) => `Nouveau départ, prête pour ${clock}`,
  noneOvernight: (clock) =>
    `Pas encore de plan du travail jusqu'à ${clock} sur ce téléphone. Dites qui est là, puis faites-le calculer.`,
  ask: {
    again: "Planifier avec d'autres gens ou minutes",
    mechanics: "Mécaniciens",
    mechanicsNote: (names) => `Au travail : ${names}. Les contrôleurs sont toujours comptés.`,
    minutes: "Minutes, de contrôle à contrôle",
    away: "Qui est absent",
    awayHow: (name) => `${name} : combien de temps d'absence ?`,
    awayAtFirst: "Au début",
    awayForAll: "Tout du long",
    nobody: "Tout le monde est absent : il ne reste personne pour travailler.",
    awayUntil: (name) => `${name} est là dès la minute`,
    button: (service) => `Planifier l'assistance ${service}`,
    buttonOvernight: (clock) => `Planifier jusqu'à ${clock}`,
    asking: "Calcul …",
  },
  elsewhere: (service) => `La voiture est en assistance ${service}.`,
  showService: (service) => `Montrer l'assistance ${service}`,
  workedOut: (time) => `Calculé à ${time}`,
  notIn: (time) => `La voiture n'est pas entrée : selon l'itinéraire, travail dès ${time}.`,
  noClock: "La voiture n'est pas entrée, et l'itinéraire ne dit pas d'heure : on compte dessous dès son entrée.",
  stale: "Les travaux ont changé depuis : refaites le plan.",
  staleButton: "Refaire le plan",
  refresh: "Planifier le reste dès maintenant",
  greedy: "Plan rapide. On l'améliore …",
  greedyOnly: "Plan rapide, sans la réponse du solveur. Un meilleur plan peut exister.",
  unsettled: "Ce qu'on gagnerait avec des minutes ou des bras en plus se calcule encore.",
  proven: "Prouvé : aucun plan ne fait plus dans ce temps.",
  notProven: "Non prouvé : un meilleur plan peut exister.",
  onTime: (times) => `À l'heure : ${timesInTen(times)}.`,
  byThen: (times) => `Sortie à cette heure : ${timesInTen(times)}.`,
  timesInTen,
  likely: (time) => `Prête sans doute à ${time}.`,
  late: (min, penalty_s) =>
    `Ce qui retient la voiture n'entre pas dans le temps : sortie avec ${minutes(min)} de retard, ${penalty_s === 0 ? "sans pénalité" : `une pénalité de ${seconds(penalty_s)}`} selon le règlement de cette épreuve.`,
  nextMine: "Votre prochaine tâche",
  nowMine: "Votre tâche maintenant",
  nothingNext: "Plus rien dans ce plan",
  under: "en cours",
  choice: {
    legend: "Quel plan est suivi",
    name: { "on-time": "À l'heure", everything: "Tout", "on-hold": "À l'heure, retenue" },
    late_name: "Tout ce qui la retient",
    left: (n) => (n === 0 ? "tout y est" : `${n} pour plus tard`),
    likely: (time) => `prête sans doute à ${time}`,
    late: (min, penalty_s) => (penalty_s === 0 ? `${min} min de retard` : `${min} min de retard, ${penalty_s} s`),
    onHold: "La voiture repart retenue : du travail de sécurité reste à faire.",
  },
  offer: {
    title: (n) => (n === 1 ? "Un plan plus récent : 1 changement" : `Un plan plus récent : ${n} changements`),
    in: (what) => `entre : ${what}`,
    out: (what) => `sort : ${what}`,
    people: (what, names) => `${what} : maintenant ${names}`,
    order: (name) => `${name} : un autre ordre`,
    keep: "Garder celui-ci",
    take: "Suivre le plus récent",
  },
  lanes: "Toute l'équipe",
  key: {
    work: "réparation",
    inspect: "contrôle",
    check: "vérification",
    routine: "routine",
    open: "ouvrir ou refermer",
    moves: "la voiture bouge : personne autour",
  },
  endOf: (car) => `${car} repart`,
  lateShort: "en retard",
  moving: { up: "montée", down: "descente" },
  lasts: {
    s: (s) => `${s} s`,
    min: (min) => `${min} min`,
    both: (min, s) => `${min} min ${s} s`,
    h: (h, min) => (min === 0 ? `${h} h` : `${h} h ${min}`),
  },
  with: (names) => `avec ${names}`,
  you: "vous",
  lane: (name) => `Tâches : ${name}`,
  awayForAll: "absent",
  laneSaid: (name, next) => `${name} : ${next}. Toutes les tâches`,
  there: (time) => `là dès ${time}`,
  now: (time) => `maintenant ${time}`,
  kind: {
    open: "ouvrir",
    work: "réparation",
    inspect: "contrôle",
    check: "vérification",
    close: "refermer",
    routine: "routine",
  },
  state: { planned: "prévu", "under-way": "en cours", done: "fait" },
  spoken: (time, what, people, state) => `${time} ${what}, ${people}, ${state}`,
  and: (names) =>
    names.length < 2 ? names.join("") : `${names.slice(0, -1).join(", ")} et ${names[names.length - 1]}`,
  also: " ; ",
  nobody: "personne de nommé",
  doneTitle: (n) => `Fait dans cette assistance (${n})`,
  doneBy: (name, time) => `${name}, ${time}`,
  task: {
    notThere: "Cette tâche n'est pas dans le plan de ce téléphone. Retournez au plan.",
    when: "Quand",
    besideCar: "À côté de la voiture",
    parts: "À préparer",
    start: "Commencer",
    done: "Fait",
    finishJob: "La finir sur la page du travail",
    lookJob: "La contrôler sur la page du travail",
    lookOwn: "Les contrôles de cet endroit se signent sur la page du travail, avec le code du contrôleur lui-même.",
    begunBy: (name, time) => `${name} a commencé à ${time}`,
    doneByLine: (name, time) => `Fait : ${name}, ${time}`,
    critical: (percent) => `Décide de la fin dans ${percent} % des cas calculés.`,
  },
  out: {
    title: "Pas dans le plan",
    little: (n) => (n === 1 ? "1 de plus, quand des bras sont libres" : `${n} de plus, quand des bras sont libres`),
    none: "Tout ce qui est ouvert dans le journal entre dans le plan.",
    why: {
      time: "Pas le temps",
      value: "Sans valeur dans le barème, et aucun créneau",
      risk: "La fin deviendrait trop incertaine",
      part: "Une pièce manque",
      people: "Trop peu de monde",
      official: "Attend l'officiel",
    },
    withIt: (times) => `Avec ce travail, à l'heure ${timesInTen(times)}.`,
    to: {
      "next-service": "Pour la prochaine assistance",
      road: "Pour l'équipage sur la route",
      after: "Pour après l'épreuve",
    },
    aboard: "À mettre à bord",
    tools: "Outils",
    defer: { "next-service": "Reporter à la prochaine assistance", road: "Laisser à l'équipage sur la route" },
    reason: { part: "Pas de pièce", value: "Peut attendre" },
    noTime: "Pas le temps",
    deferred: "Reporté, le journal le dit",
    holds: "Reporter ne lève pas la retenue. Seul un contrôle le fait.",
  },
  needs: {
    title: "L'obligatoire n'entre pas tout entier dans le temps",
    least: (min, late) => `En tout il faut au moins ${minutes(min)} ici : sortie avec ${minutes(late)} de retard.`,
    penalty: (s) => `Selon le règlement de cette épreuve, une pénalité de ${seconds(s)}.`,
    past: "C'est au-delà de la limite de l'épreuve : la voiture serait hors course. Demandez aux officiels, et décidez ce qui reste.",
  },
  buys: {
    title: "Sortir en retard",
    column: { late: "Retard", penalty: "Pénalité", adds: "Ce qu'on y gagne" },
    row: (from, to) => (from === to ? `${from} min` : `${from} à ${to} min`),
    penalty: (from, to) => (to === 0 ? "aucune" : from === to ? `${from} s` : `${from} à ${to} s`),
    none: "rien",
    noMore: "rien de plus",
    drops: (what) => `(sort : ${what})`,
    nothing: "Rien n'entre dans la limite de l'épreuve.",
    notProven: "non prouvé",
    nobodyLate: "Tout entre dans le temps : partir en retard n'apporterait rien.",
  },
  hands: {
    title: "Plus ou moins de bras",
    with: (n) => (n === 1 ? "Avec 1 mécanicien" : `Avec ${n} mécaniciens`),
    adds: "En plus",
    drops: "En moins",
    same: "Le même travail.",
    ends: (time) => `Le travail finit à ${time}.`,
  },
  lateness: (used, left) =>
    `${used === 0 ? "Aucune minute de retard jusqu'ici" : `${minutes(used)} de retard jusqu'ici`} ; l'épreuve en permet encore ${minutes(left)} à ce contrôle.`,
  rulesDecide: "Le règlement de l'épreuve et ses officiels décident des pénalités.",
  sheet: {
    link: "Feuille de travail",
    title: (car, service) => `Voiture ${car}, assistance ${service}`,
    titleOvernight: (car, clock) => `Voiture ${car}, prête pour ${clock}`,
    print: "Imprimer cette feuille",
    due: (time) => `Sortie prévue ${time}`,
    stands:
      "Sous la voiture seulement sur chandelles, jamais sur le cric seul. Laissez refroidir les pièces chaudes. Carburant ouvert : aucun autre travail sur la voiture.",
    rules:
      "Cette feuille dit ce que contient le journal. Le règlement de l'épreuve, ses officiels et les gens du métier décident.",
    parts: "À préparer",
    box: "Fait",
    nothing: "rien de prévu",
    leftOut: "Pas dans le plan",
    looks: "À contrôler",
    looksNone: "Aucun contrôle prévu.",
    checkedBy: "contrôlé par (équipe)",
    tools: "Outils comptés, rien laissé sur la voiture",
    stale: "Les travaux ont changé depuis ce calcul.",
  },
};

const large = (text: string) => text.charAt(0).toUpperCase() + text.slice(1);

/** Ouvrir et refermer un accès, comme on le dit à la place d'assistance. */
const STEPS: Record<string, readonly [open: string, close: string]> = {
  "rinse-or-scrape": ["Rincer ou gratter", "Rincer ou gratter"],
  "car-on-stands": ["Lever la voiture", "Reposer la voiture"],
  "front-on-stands": ["Lever l'avant", "Reposer l'avant"],
  "rear-on-stands": ["Lever l'arrière", "Reposer l'arrière"],
  "wheel-off": ["Déposer la roue", "Remonter la roue"],
  "torque-on-ground": ["Préparer le serrage au sol", "Serrer au couple au sol"],
  "cool-down": ["Laisser refroidir", "Refroidie"],
  "arch-liner-out": ["Déposer le pare-boue", "Remonter le pare-boue"],
  "sump-guard-off": ["Déposer le ski moteur", "Remonter le ski moteur"],
  "floor-guards-off": ["Déposer les protections de plancher", "Remonter les protections de plancher"],
  "tank-guard-off": ["Déposer la protection de réservoir", "Remonter la protection de réservoir"],
  "front-bumper-off": ["Déposer le pare-chocs avant", "Remonter le pare-chocs avant"],
  "rear-bumper-off": ["Déposer le pare-chocs arrière", "Remonter le pare-chocs arrière"],
  "bonnet-up": ["Ouvrir le capot", "Fermer le capot"],
  "bonnet-off": ["Déposer le capot", "Remonter le capot"],
  "boot-lid-off": ["Déposer le couvercle de coffre", "Remonter le couvercle de coffre"],
  "boot-emptied": ["Vider le coffre", "Ranger le coffre"],
  "air-box-out": ["Déposer la boîte à air", "Remonter la boîte à air"],
  "coolant-drained-and-filled": ["Vidanger le liquide de refroidissement", "Refaire le plein de liquide"],
  "gearbox-oil-drained-and-filled": ["Vidanger l'huile de boîte", "Remettre l'huile de boîte"],
  "brakes-opened-and-bled": ["Ouvrir les freins", "Purger les freins"],
  "battery-isolated": ["Isoler la batterie", "Rebrancher la batterie"],
  "fuel-made-safe": ["Carburant : préparer l'intervention", "Carburant : refermer"],
  "welding-place-made-safe": ["Préparer le poste de soudage", "Ranger le poste de soudage"],
  "seat-out": ["Déposer le siège", "Remonter le siège"],
  "dash-or-column-cover-off": ["Déposer le tableau de bord ou le cache", "Remonter le tableau de bord ou le cache"],
  "padding-and-trim-off": ["Déposer mousses et garnitures", "Remonter mousses et garnitures"],
  "official-called": ["Appeler l'officiel", "Officiel passé"],
};

const stepSaid = (step: string, kind: "open" | "close") =>
  STEPS[step]?.[kind === "open" ? 0 : 1] ?? `${large(access(step))} : ${kind === "open" ? "ouvrir" : "refermer"}`;

export const tasks: Words<typeof englishTasks> = {
  step: stepSaid,
  named: (name) => large(action(name)),
  inspect: (what) => (what ? `Contrôler ${what}` : "Contrôler"),
  short: { inspect: "contrôle", torque: "serrage" },
  shortStep: (step, kind, corner) => {
    if (step.endsWith("on-stands")) return kind === "open" ? "lever" : "reposer";
    if (step === "wheel-off" && corner) return `${corner} ${kind === "open" ? "déposée" : "reposée"}`;
    const said = stepSaid(step, kind);
    return `${said.charAt(0).toLowerCase()}${said.slice(1)} ${corner}`.trim();
  },
};
