import type { Words } from "./english";

const plural = (count: number, one: string, several: string): string => `${count} ${count > 1 ? several : one}`;

/**
 * French. ISO 9972's official French title has "perméabilité à l'air des bâtiments" and "méthode de pressurisation par ventilateur"; the other
 * terms are common practice of the trade in French, no source.
 */
export const french: Words = {
  name: "Français",
  locale: "fr-FR",
  title: "Contrôle d’un classeur de mesure de perméabilité à l’air",
  motto: "Du verdict jusqu’aux relevés. Rien ne quitte cet ordinateur.",
  choose: "Choisir des classeurs",
  chooseFolder: "Choisir un dossier",
  drop: "ou déposer ici des fichiers .xlsx",
  reading: (name, done, of) => `Lecture et recalcul de ${name}${of > 1 ? ` (${done + 1} sur ${of})` : ""}`,
  tooLarge: (name, megabytes) => `${name} fait ${megabytes} Mo ; cette page lit jusqu’à 64 Mo.`,
  notRead: (name, problem) => `${name} n’a pas pu être lu : ${problem}`,
  working: "Un instant …",
  noFiles: "Aucun fichier .xlsx parmi ceux-ci.",
  cancel: "Arrêter",
  stopped: "Arrêté.",

  inEnglish:
    "Les constats de l’examen et les explications du cheminement sont en anglais, comme les libellés du classeur.",
  language: "Langue",
  back: "Tous les classeurs",
  failed: (problem) => `Cela n’a pas fonctionné : ${problem}`,
  offline: "Garder cette page pour l’utiliser sans réseau",
  offlineReady: "Gardée. Elle s’ouvre désormais sans réseau.",
  offlineFailed:
    "Elle ne peut pas être gardée ici : les fichiers reader-offline.js et reader.webmanifest ne sont pas servis à côté. Enregistrez plutôt la page comme fichier ; celui-ci s’ouvre sans réseau.",

  workbooks: "Classeurs",
  workbook: "Classeur",
  waiting: "en attente",
  worstFirst:
    "Les plus préoccupants d’abord : illisibles, puis par verdict et par écart avec les valeurs enregistrées.",

  tabs: {
    verdict: "Verdict",
    findings: "Constats",
    trace: "Origine",
    sheets: "Feuilles",
    graph: "Graphique",
    trial: "Et si",
    compare: "Comparer",
    files: "Remettre",
  },

  verdict: {
    verdict: "Verdict",
    verdicts: (count) => `${count} verdicts`,
    more: (count) => `… et ${count} autres`,
    none: "Aucune cellule de ce classeur ne donne de verdict.",
    open: "pas encore mesuré",
    words: {
      pass: "Conforme",
      fail: "Non conforme",
      "not proven": "Non démontré",
      "not valid": "Essai non valide",
      open: "En suspens",
    },
    of: (label) => `Verdict sur ${label}`,
    result: "Résultat",
    limit: "Limite",
    interval: (level) => (level === "" ? "Intervalle" : `Intervalle à ${level}`),
    bar: (result, level, lower, upper, limit) =>
      `Résultat ${result}, intervalle${level === "" ? "" : ` à ${level}`} de ${lower} à ${upper}, limite ${limit}.`,
    barKey: (level) =>
      `L’axe part de 0. Trait plein : le résultat, en grisé son intervalle${level === "" ? "" : ` à ${level}`} ; tirets : la limite.`,
    barKeyWithout: "L’axe part de 0. Trait plein : le résultat ; tirets : la limite.",
    barWithout: (result, limit) => `Résultat ${result}, limite ${limit}.`,
    noInterval: "La formule du verdict ne reçoit pas l’incertitude élargie ; aucun intervalle n’est donc montré.",
    conditions: "Conditions d’un essai valide",
    noConditions: "Le verdict ne dépend d’aucun tableau de conditions de validité.",
    metCount: (met, of) => `${met} des ${of} conditions obligatoires sont remplies.`,
    condition: "Condition",
    measured: "Mesuré",
    required: "Limite",
    outcome: "Appréciation",
    outcomes: { met: "remplie", "not met": "non remplie", "cannot be judged": "ne peut être jugée" },
    binding: "obligatoire",
    advisory: "indicative",
    allConditions: (count) => `les ${count} conditions`,
    summary: "Résumé, dans les termes du classeur",
    quantity: "Grandeur",
    value: "Valeur",
    unit: "Unité",
    recalculation: "Recalcul",
    recomputed: (evaluated, of) => `${evaluated} des ${of} formules ont été recalculées ici, sans Excel.`,
    same: "Tous les résultats sont ceux du fichier.",
    differ: (count) => `${plural(count, "résultat diffère", "résultats diffèrent")} de ce que dit le fichier.`,
    stored: "Dans le fichier",
    computed: "Recalculé",
    cell: "Cellule",
    why: "Raison",
    notEvaluated: (count) =>
      `${plural(count, "formule n’a pas pu être recalculée", "formules n’ont pas pu être recalculées")}.`,
    issued: (day, version) => `Ceci est une copie remise le ${day}, méthode ${version}.`,
    responsibility: "Cette page recalcule ; le résultat reste de la responsabilité de l’opérateur de mesure.",
  },

  findings: {
    start: "Contrôler le classeur",
    about:
      "Le contrôle recalcule plusieurs fois le classeur et cherche les formules remplacées par un nombre, les relevés oubliés, les unités confondues et les verdicts qui ne découlent pas des résultats.",
    running: (done, of) => `Contrôle : étape ${done} sur ${of}`,
    severities: { error: "Erreur", warning: "Alerte", note: "Note" },
    counts: (errors, warnings, notes) =>
      `${plural(errors, "erreur", "erreurs")}, ${plural(warnings, "alerte", "alertes")}, ${plural(notes, "note", "notes")}.`,
    none: "Aucune erreur, aucune alerte.",
    legend:
      "Erreur : le classeur se contredit ou contredit la méthode. Alerte : une personne doit vérifier. Note : pour information. Aucun programme ne reconnaît un relevé inventé avec soin. Les constats sont en anglais.",
    why: "Pourquoi cela compte",
    todo: "Que faire",
    turns: "change le verdict",
    related: (count) => plural(count, "autre constat de même cause", "autres constats de même cause"),
    checked: "Ce qui a été contrôlé",
    beyond: "Ce qu’aucun programme ne peut trouver",
    also: (count) => `De même à ${plural(count, "autre endroit", "autres endroits")}`,
    filter: "Montrer",
    all: "tout",
    bySheet: (sheet) => `feuille ${sheet}`,
  },

  trace: {
    about: "D’où vient une valeur, pas à pas jusqu’à ce qui a été saisi.",
    cell: "Cellule",
    go: "Remonter",
    example: "par exemple Results!F45",
    unknown: (cell) => `Ce classeur n’a pas de cellule ${cell}.`,
    showInSheet: "Montrer dans sa feuille",
    reads: "Elle lit",
    table: "Le tableau entier",
    cells: "Ses cellules",
    inputs: (count) => `Jusqu’à ${plural(count, "cellule saisie", "cellules saisies")}`,
    path: "Chemin",
  },

  sheets: {
    about: "Le classeur tel qu’il se présente. Choisissez une cellule pour voir sa formule et son origine.",
    hidden: "masquée",
    key: "Coin à gauche : saisie. Coin à droite : calculé par le complément. Ligne ondulée : erreur.",
    nothing: "Aucune cellule choisie.",
    traceThis: "Origine de cette cellule",
  },

  graph: {
    none: "Aucun essai de ce classeur ne peut être représenté.",
    which: "Essai",
    about: "Choisissez un relevé, sur le graphique ou dans la liste, pour voir sa cellule.",
    readings: "Relevés",
    line: "Série",
    pressure: "Différence de pression induite",
    flow: "Débit",
    used: "Retenu",
    yes: "oui",
    no: "non",
    zoom: "Taille",
  },

  trial: {
    about: "Changez ce qui a été saisi et voyez ce que cela changerait. Rien n’est enregistré, sauf copie demandée.",
    find: "Chercher une saisie par son libellé",
    found: (count) => plural(count, "saisie", "saisies"),
    none: "Ce classeur n’a pas de cellule de saisie.",
    add: "Changer",
    changes: "Changements",
    now: "Actuellement",
    remove: "Retirer",
    run: "Recalculer",
    before: "Avant",
    after: "Après",
    changed: (count) => `${plural(count, "résultat change", "résultats changent")}.`,
    same: "Aucune valeur du résumé ne change.",
    verdict: "Verdict",
    save: "Une copie avec ces changements",
  },

  compare: {
    about:
      "Choisissez un second classeur, par exemple celui qui a été remis. Celui-ci compte comme la version antérieure.",
    choose: "Version ultérieure",
    equal: "Rien ne diffère : saisies, formules et résultats sont les mêmes.",
    verdicts: "Verdicts différents",
    inputs: "Saisies différentes",
    formulas: "Formules différentes",
    results: "Résultats différents",
    onlyBefore: "Feuilles de la seule version antérieure",
    onlyAfter: "Feuilles de la seule version ultérieure",
    turns: "Chercher la différence qui change le verdict",
    turning: (done, of) => `Essai de la différence ${done + 1} sur ${of}`,
    tried: (tried, of) =>
      `${tried} différences sur ${of} ont été essayées, dans l’ordre des feuilles ; une des autres peut aussi changer le verdict.`,
    turn: "À elle seule elle donne",
    effect: "Effet",
    turned: "change le verdict",
    kept: "ne le change pas",
    more: (count) => `… et ${count} de plus.`,
    label: "Quoi",
  },

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

  refusals: {
    notOpen: () => "le classeur n’est pas ouvert",
    noCell: (address) => `la cellule ${address} n’existe pas`,
    noGraph: () => "cet essai n’existe pas",
    noFile: () =>
      "cet Excel ne donne pas le fichier entier : enregistrez le classeur et ouvrez-le dans la page de contrôle",
    frozen: () =>
      "ceci est une copie remise : une copie modifiée garderait ses résultats figés et sa marque de remise ; modifiez le classeur d’origine",
    writeDay: () => "écrivez une date sous la forme 2026-11-24, une heure sous la forme 14:05",
    ambiguousComma: (whole, decimal) => `cela peut être ${whole} ou ${decimal} ; écrivez l’un des deux`,
    tooLarge: () => "le nombre est trop grand pour une cellule",
    formula: () => "on ne peut saisir que des valeurs, pas de formules",
    separators: () => "écrivez les nombres sans séparateur de milliers, un texte entre guillemets droits",
    ambiguousDay: () => "écrivez la date sous la forme 2026-11-24",
    regional: () =>
      "selon les réglages régionaux, ce serait un nombre ou une date ; écrivez les dates sous la forme 2026-11-24, un texte entre guillemets droits",
    noUnit: () => "aucune unité ne figure à côté de la cellule ; donnez le nombre seul",
    otherUnit: (unit, typed) => `la cellule est en ${unit}, pas dans une unité comme ${typed}`,
    "already issued": () => "ceci est déjà une copie remise ; partez du classeur d’origine",
    "nothing to freeze": () => "aucune cellule de ce classeur n’a besoin du complément",
    "not evaluated": (cells) => `des cellules n’ont pas pu être calculées (${cells})`,
    "stored values differ": (cells) =>
      `des valeurs enregistrées diffèrent de ce que donnent les formules (${cells}) ; enregistrez d’abord le classeur recalculé`,
    "shows #NAME?": (cells) =>
      `la valeur enregistrée est #NOM?, faute du complément, dans ${cells} ; enregistrez d’abord le classeur recalculé`,
  },
};
