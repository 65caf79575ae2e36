/** Actions du barème, en noms ; une action propre à l'équipe garde son nom. */

const ACTIONS: Record<string, string> = {
  replace: "Remplacer",
  swap: "Échanger",
  repair: "Réparer",
  straighten: "Redresser",
  refit: "Remonter",
  tape: "Rubaner",
  bleed: "Purger",
  clean: "Nettoyer",
  inspect: "Contrôler",
  look: "Regarder",
  check: "Vérifier",
  tighten: "Resserrer",
  weld: "Souder",
  patch: "Dépanner",
  adjust: "Régler",
  fit: "Monter",
  remove: "Déposer",
  drain: "Vidanger",
  fill: "Remplir",
  "strap-up": "Sangler",
  plug: "Boucher",
  free: "Dégripper",
  dry: "Sécher",
  assess: "Évaluer",
};

const large = (text: string) => text.charAt(0).toUpperCase() + text.slice(1);

export const action = (name: string): string => ACTIONS[name] ?? large(name.replaceAll("-", " "));
