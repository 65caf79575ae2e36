/** Actions du barème, en noms ; une action propre à l'équipe garde son nom. */

const ACTIONS: Record<string, string> = {
  replace: "Remplacer",
  swap: "Échanger",
  renew: "Renouveler",
  "beat-straight": "Redresser au marteau",
  seal: "Étancher",
  sleeve: "Manchonner",
  repair: "Réparer",
  straighten: "Redresser",
  refit: "Remonter",
  tape: "Rubaner",
  bleed: "Purger",
  clean: "Nettoyer",
  tighten: "Resserrer",
  weld: "Souder",
  inspect: "Contrôler",
  assess: "Évaluer",
};

const large = (text: string) => text.charAt(0).toUpperCase() + text.slice(1);

export const action = (name: string): string => ACTIONS[name] ?? large(name.replaceAll("-", " "));
