/** Mots de l'écran qui mène à tout ce qui n'a pas d'onglet. */

import type { Words } from "../../../kit/language";
import type { more as english } from "../more";

export const more: Words<typeof english> = {
  title: "Plus",
  groups: { work: "La voiture", office: "Le bureau", phone: "Ce téléphone" },
  about: {
    queue: ["Travaux", "ce qui est ouvert, par endroit"],
    service: ["Assistance", "entrée, sortie, prochaine tâche"],
    log: ["Noter un choc", "touchez l'endroit"],
    round: ["Tour de la voiture", "endroit après endroit, enregistré à la fin"],
    reports: ["Rapports", "ce qui a été dit, envoyé ou non"],
    incidents: ["Incidents", "un choc et ses rapports, biens, tiers"],
    plan: ["Plan", "qui fait quoi, à l'horloge"],
    team: ["Plan d'équipe", "toutes les voitures, une équipe, une horloge"],
    board: ["Tableau mural", "lu à travers la tente"],
    briefing: ["Briefing", "ce qui est dit à l'équipage avant le départ"],
    retired: ["Abandon, nouveau départ", "où elle s'est arrêtée, prête pour quand"],
    arrival: ["Débriefing du pilote", "sept questions à l'arrivée"],
    readings: ["Relevés", "plaquettes, pneus, huile, températures"],
    lives: ["Pièces à durée de vie", "par épreuves, km et jours : ce qui est à échéance"],
    turn: ["Entre deux tours", "qui conduit ensuite"],
    documents: ["Documents", "feuille de travail, carnet, liste de contrôle"],
    costs: ["Coûts", "estimation, réel, corrections"],
    statement: ["Décompte", "ce qui est facturé au client"],
    season: ["Saison", "minutes observées, pièces à emporter"],
    walk: ["Remise de la voiture", "le tour avant et après"],
    setup: ["Réglages", "épreuves, personnes, barème, accords"],
    aside: ["À examiner", "entrées que le serveur n'a pas prises"],
    codes: ["Envoyer par code QR", "à un autre téléphone, sans réseau"],
    handover: ["Recevoir d'un autre téléphone", "par code ou fichier, sans réseau"],
    passes: ["Contrôles qui ne comptent pas", "signés comme passés, et pourquoi"],
    looks: ["Listes de contrôle", "ce que parcourt un contrôle"],
    me: ["Moi et ce téléphone", "code PIN, thème, langue, mémoire"],
    about: ["À propos", "ce que c'est, et ce que ce n'est pas"],
  },
};
