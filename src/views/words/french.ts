import type { Words } from "./english";

/**
 * French: ISO 9972's official French title speaks of "perméabilité à l'air des bâtiments" and "méthode de pressurisation par ventilateur";
 * the other terms are common practice of the trade in French.
 */
export const french: Words = {
  name: "Français",
  locale: "fr-FR",
  title: "Contrôle d’un classeur d’essai d’étanchéité à l’air",
  motto: "Du verdict jusqu’aux relevés. Rien ne quitte cet ordinateur.",
  choose: "Choisir des classeurs",
  chooseFolder: "Choisir un dossier",
  drop: "ou déposer ici des fichiers .xlsx",
  reading: (name) => `Lecture et recalcul de ${name}`,
  tooLarge: (name, megabytes) => `${name} fait ${megabytes} Mo ; cette page lit jusqu’à 64 Mo.`,
  notRead: (name, problem) => `${name} n’a pas pu être lu : ${problem}`,
  noFiles: "Aucun fichier .xlsx parmi ceux-ci.",
  cancel: "Arrêter",
  stopped: "Arrêté.",
  language: "Langue",
  close: "Fermer",
  back: "Tous les classeurs",
  failed: (problem) => `Cela n’a pas fonctionné : ${problem}`,
  offline: "Garder cette page pour l’utiliser sans réseau",
  offlineReady: "Gardée. Elle s’ouvre désormais sans réseau.",

  files: {
    about: "Fichiers tirés de ce classeur, sur cet ordinateur.",
    issue: "Copie à remettre : résultats sans le complément, formules listées, scellée par une empreinte",
    recalculated: "Classeur entièrement recalculé",
    findings: "Contrôle sous forme de page",
    graph: "Graphique en dessin (SVG)",
    picture: "Graphique en image (PNG)",
    make: "Préparer",
    made: (name) => `${name} est prêt.`,
    download: (name) => `Enregistrer ${name}`,
    reviewFirst: "Contrôlez d’abord le classeur, sous Constats.",
  },
} as unknown as Words;
