/** Mots de la page À propos et des trois cartes du premier jour : ce que c'est, ce que ce n'est pas, qui décide. */

import type { Words } from "../../../kit/language";
import type { about as english, tour as englishTour } from "../about";
import { job } from "./job";

const { battery: _only_beside_its_job, ...cautions } = job.caution;

export const about: Words<typeof english> = {
  title: "Ce que ceci n'est pas",
  is: "Ce que c'est",
  isText: [
    "Un journal : ce que des gens ont vu et fait sur une voiture, qui l'a dit, et quand. Les travaux, le plan et les coûts en découlent.",
    "Rien n'y est changé ni effacé. Une erreur est retirée, et reste dans l'historique.",
  ],
  not: "Ce que ce n'est pas",
  notText: [
    "Ni contrôle officiel ni accord. Il ne dit jamais qu'une voiture peut rouler. Rien d'ouvert dans le journal ne la retient : cela veut dire qu'il ne manque aucun contrôle connu du journal, et pas plus.",
    "Pas un appel d'urgence. Personne n'apprend par lui que vous avez besoin d'aide : servez-vous du panneau OK ou SOS, du triangle et du numéro du carnet d'itinéraire.",
    "Pas un manuel d'atelier. Minutes, contrôles et limites sont le barème de votre équipe ou la pratique courante, jamais la parole du constructeur.",
    "Ni horloge officielle, ni résultat, ni juge d'une pénalité. Il compte avec ce que vous lui dites.",
    "Pas de conseil à un équipage sur la route, là où l'épreuve l'interdit.",
  ],
  cautions: "Avant que quelqu'un travaille sur une voiture",
  caution: [
    ...Object.values(cautions),
    "La batterie est isolée avant qu'on touche au faisceau ou qu'on soude.",
    "Serrage au couple selon les chiffres du constructeur, avec une clé vérifiée.",
    "Une marque sur l'arceau se montre aux officiels. Son constructeur le répare, ou comme il l'approuve ; une belle soudure ne prouve rien.",
    "Une pièce plombée ne s'ouvre qu'avec l'accord des officiels.",
  ],
  decides: "Qui décide",
  decidesText:
    "Les officiels de l'épreuve et son règlement, le code de la route, et les gens qui ont la licence ou la formation pour ce travail. Là où ils disent autre chose que cette application, ils ont raison.",
  words: "D'où viennent les mots",
  wordsText:
    "Pénalités et heures viennent des réglages de l'épreuve. Les pièces, ce qu'on y contrôle, ce que peut vouloir dire un symptôme et ces précautions sont de pratique courante, sans source, sauf si un document de l'application en nomme une. Votre équipe les change dans ses réglages.",
  tour: "Voir les trois cartes du premier jour",
};

export const tour: Words<typeof englishTour> = {
  label: "Comment ça marche",
  count: (n, of) => `Carte ${n} sur ${of}`,
  next: "Suivant",
  skip: "Passer",
  done: "Compris",
  finish: {
    title: "Après la spéciale",
    text: [
      "Le carnet de pointage d'abord. Passé le panneau de fin de zone, là où vous vous arrêtez : touchez l'endroit du choc, la pièce, Enregistrer.",
      "Vous hésitez ? L'endroit seul suffit. Rien vu ? Un toucher le dit. Pas de réseau ? C'est gardé et part plus tard.",
    ],
  },
  marks: {
    title: "Ce que veulent dire les signes",
    list: [
      { icon: "waiting", text: "En attente d'envoi : sur ce téléphone seulement" },
      { icon: "sent", text: "Envoyé : le serveur l'a" },
      { icon: "attention", text: "À voir : lisez ce qu'il dit" },
    ],
    number: "Un nombre sur la voiture : des rapports ouverts à cet endroit",
  },
  not: {
    title: "Ce que ce n'est pas",
    text: [
      "Un journal. Il ne dit jamais qu'une voiture peut rouler : les officiels, le règlement et les gens du métier décident.",
      "Il n'appelle personne. En cas d'urgence : le panneau, le triangle, le numéro du carnet d'itinéraire. Plus : Moi, À propos.",
    ],
  },
};
