# Mots de la page. Chaque code commence par `page-`. Les arguments arrivent en texte fini, ou en nombres qui choisissent le pluriel.

page-air-chain = Chaîne d’émission
page-stands-on = repose sur
page-open-chain = Ouvrir la chaîne
page-not-known = inconnu
page-margin-spoken = marge de { $margin }
page-title-block = Cartouche
page-station = Station
page-sheet-of = Feuille { $number } sur { $of }
page-revision = Révision { $number }
page-not-dated = non datée
page-file = Fichier
page-file-saved = Enregistré
page-file-writing = Écriture
page-file-not-saved = Non enregistré
page-file-changed-outside = Changé sur le disque
page-last-change = Dernier changement
page-no-change = aucun dans cette séance
page-draft = ébauche, la réponse entière suit
page-not-done = Non fait
page-findings = Constats
page-counts-spoken = { $errors ->
    [one] { $errors } erreur
   *[other] { $errors } erreurs
}, { $warnings ->
    [one] { $warnings } alerte ou mise en garde
   *[other] { $warnings } alertes et mises en garde
}, { $notes ->
    [one] { $notes } remarque
   *[other] { $notes } remarques
} : ouvrir les constats
page-errors = { $count ->
    [one] { $count } erreur
   *[other] { $count } erreurs
}
page-warnings = { $count ->
    [one] { $count } alerte
   *[other] { $count } alertes
}
page-notes = { $count ->
    [one] { $count } remarque
   *[other] { $count } remarques
}
page-none = aucun
page-signatures = Dessiné, vérifié, approuvé
page-not-signed = pas encore signé

page-sheet-glance = La station d’un coup d’œil
page-sheet-brief = Cahier des charges
page-sheet-file = Fichier de station
page-sheet-offers = Offres
page-sheet-studio = Studio
page-sheet-link = Liaison
page-sheet-antenna = Antenne
page-sheet-coverage = Couverture
page-sheet-findings = Constats
page-sheet-sites = Sites
page-sheet-money = Argent
page-sheet-papers = Documents
page-sheet-acceptance = Recette
page-opening-margin = { $name } : { $level }, marge de { $margin }.
page-opening-short = { $name } : { $level }, il manque { $margin }.
page-opening-level = { $name } : { $level }.
page-opening-brief = Ce qui était demandé, ce qui y répond, et ce qu’il a fallu supposer.
page-opening-file = { $file }, toute la station dans un fichier.
page-opening-offers = Ce qu’achète cet argent, et ce qu’achèterait un peu plus.
page-opening-studio = { $count ->
    [0] Le studio, sans rien à redire.
    [one] Le studio, avec un constat.
   *[other] Le studio, avec { $count } constats.
}
page-opening-link = { $count ->
    [0] La liaison, sans rien à redire.
    [one] La liaison, avec un constat.
   *[other] La liaison, avec { $count } constats.
}
page-opening-antenna = { $count ->
    [0] De l’émetteur à l’antenne, sans rien à redire.
    [one] De l’émetteur à l’antenne, avec un constat.
   *[other] De l’émetteur à l’antenne, avec { $count } constats.
}
page-opening-coverage = { $count ->
    [0] Où on l’entend, sans rien à redire.
    [one] Où on l’entend, avec un constat.
   *[other] Où on l’entend, avec { $count } constats.
}
page-opening-findings = { $count ->
    [0] Rien à redire.
    [one] Une chose à savoir avant une signature.
   *[other] { $count } choses à savoir avant une signature, la pire d’abord.
}
page-opening-sites = { $count ->
    [0] Ce sur quoi repose la station, sans rien à redire.
    [one] Ce sur quoi repose la station, avec un constat.
   *[other] Ce sur quoi repose la station, avec { $count } constats.
}
page-opening-money = Ce que cela coûte, ligne par ligne.
page-opening-papers = Les documents à remettre, et l’état de chacun.
page-opening-acceptance = Ce qu’un appareil lit le jour venu, et ce qui est accepté. Rien n’est encore mesuré.

page-skip = Aller à la phrase
page-reading = Lecture de la station
page-no-server = Le programme derrière cette page ne répond pas. Ce qui est affiché reste valable ; relancez-le sur le même port, et la page continue.
page-undo = Annuler
page-redo = Refaire
page-find = Chercher
page-keys = Touches
page-dark = Sombre
page-light = Clair
page-close = Fermer
page-cancel = Abandonner
page-history = Changements de cette séance
page-taken-back = annulé
page-find-title = Chercher un chiffre ou un article
page-find-none = Aucun chiffre ne s’appelle ainsi.

page-key-glance = la station d’un coup d’œil
page-key-stages = les neuf étapes de la chaîne
page-key-sheets = cahier des charges, offres, sites, argent, documents, recette
page-key-more-sheets = fichier de station, constats
page-key-beside = feuille d’avant, feuille d’après
page-key-findings = constat suivant, constat précédent
page-key-how = comment le chiffre le plus proche a été trouvé
page-key-find = chercher un chiffre
page-key-pin = épingler la sonde
page-key-undo = annuler ; avec Maj, refaire
page-key-close = fermer ce qui a été ouvert en dernier
page-key-arrows = parcourir la chaîne, bouger un curseur, bouger la sonde

page-figure = Chiffre
page-figures = Chiffres
page-all-figures = Tous les chiffres de la feuille
page-more-figures = Les { $count } chiffres
page-value = Valeur
page-unit = Unité
page-in-hand = Marge
page-how = comment
page-how-is = Comment : { $what }
page-how-title = Comment : { $what }
page-take-as-text = prendre comme texte
page-taken = pris
page-as-a-table = En tableau
page-curve-spoken = Courbe : { $of } selon { $along }. Gauche et droite déplacent la croix ; le tableau dessous contient la même chose.

page-severity-error = Erreur
page-severity-warning = Alerte
page-severity-caution = Prudence
page-severity-note = Remarque
page-group-error = À ne pas construire ainsi
page-group-warning = Quelqu’un le regrettera
page-group-caution = Des personnes peuvent être blessées
page-group-note = Bon à savoir
page-what-is-wrong = Ce qui ne va pas
page-what-to-know = Ce qu’il faut savoir
page-findings-here = Constats ici
page-no-findings = Rien à redire ici.
page-finding-count = { $count ->
    [one] { $count } constat
   *[other] { $count } constats
}
page-more-findings = { $count ->
    [one] Un constat de plus
   *[other] { $count } constats de plus
}

page-asked-and-answered = Demandé et répondu
page-point = Point du cahier des charges
page-asked = Demandé
page-answered = Répondu
page-who-hears-it = Qui l’entend
page-open-map = ouvrir la carte
page-what-it-costs = Ce que cela coûte
page-open-prices = tous les prix
page-what-more-buys = Ce qu’achèterait un peu plus
page-questions = Questions à poser
page-open-in-file = ouvrir dans le fichier
page-assumed = Supposé
page-assumed-aside = classé selon l’effet de chacun
page-more-assumed = Les { $count } suppositions, même celles qui ne changent rien
page-nothing-assumed = Il n’a rien fallu supposer.
page-what = Quoi
page-taken-value = Supposé
page-worth-field = Champ
page-worth-people = Habitants
page-worth-money = Argent
page-price-table = Prix par étape de la chaîne
page-quantity = Quantité
page-each = Pièce
page-line = Ligne
page-no-price = sans prix
page-excluded = Ce qui n’est pas dans le prix
page-what-stands-here = Ce qui est acheté pour cela
page-no-offers = Aucune autre station n’a encore été étudiée pour ce cahier des charges. L’étude parcourt émetteurs, câbles, éléments et hauteurs du catalogue, et prend quelques secondes.

page-work-out = Étudier les offres
page-work-out-anew = Les étudier à nouveau
page-working = Étude des offres
page-stop = Arrêter le travail
page-cost-against-people = Coût et habitants atteints
page-every-letter = chaque lettre est une station entière
page-offers-spoken = Prix de construction et habitants en stéréo : { $offers }
page-offers-people = habitants en stéréo sur le toit
page-offers-cost = { $unit } à construire, transport et droits compris
page-budget-line = Budget { $budget }
page-chosen-design = Le projet le moins cher
page-wishes = Souhaits
page-side-by-side = Côte à côte
page-side-by-side-aside = chacun à un cran du moins cher, tout le reste égal
page-station-now = la station actuelle
page-letter = Lettre
page-design = Projet
page-to-build = À construire
page-against-chosen = par rapport au moins cher
page-people-against = habitants par rapport au moins cher
page-with-running = avec le fonctionnement
page-erp = PAR
page-least-in-hand = Plus faible marge
page-verdict = Ce que cela veut dire
page-in-force = C’est la station actuelle.
page-choose-offer = Choisir { $letter }
page-presumed = { $count ->
    [0] rien n’a été laissé ouvert
    [one] une chose a été laissée ouverte
   *[other] { $count } choses ont été laissées ouvertes
}
page-more-aside = remèdes payants, le moins cher d’abord

page-heard = écoute
page-heard-roof = 10 m, sur le toit
page-heard-indoors = à l’intérieur
page-heard-car = en voiture
page-places = lieux
page-share = { $share } %
page-sea = mer
page-sea-paper = laissée blanche
page-sea-painted = peinte
page-probe = Sonde
page-probe-at = sonder à
page-probe-example = un lieu, ou 52.1 −4.2
page-map-label = Carte du champ
page-map-small = Petite carte du champ. { $says }
page-map-keys = Les flèches déplacent la sonde, plus loin avec Maj ; plus et moins approchent et éloignent ; glisser déplace la carte.
page-map-coming = Le champ est en cours de calcul ; la carte suit.
page-nearer = Plus près
page-further = Plus loin
page-north = N
page-east = E
page-south = S
page-west = O
page-ruler = La règle de l’auditeur
page-ruler-spoken = Classes de champ avec les habitants de chacune : { $classes }
page-ruler-note = Traits de la carte comme sur la règle : fins pour la campagne, plus forts pour la ville et la grande ville ; tiretés là où le mono suffit. Rec. UIT-R BS.412-9, tableau 1.
page-people = habitants
page-pin = Épingler ce lieu
page-unpin = Désépingler
page-where-field-goes = Où va le champ
page-profile-spoken = Profil du trajet, { $title } : { $peak }
page-peak-title = Sol, à { $where }
page-peak-note = au-dessus du rayon, et sa perte : { $note }
page-far-end = { $name }, { $height }
page-wanted-against = marge de { $hand } par rapport à { $wanted }
page-nothing-between = rien ne fait obstacle
page-places-table = Lieux
page-place = Lieu
page-paint = peindre
page-paint-field = champ
page-paint-hills = où dresser le mât
page-hills = Où le mât devrait-il se dresser ?
page-hills-erp = puissance rayonnée
page-hills-mast = antenne au-dessus du sol
page-hills-as-licensed = comme autorisé
page-hills-as-now = comme maintenant
page-hills-search = Chercher des collines
page-hill = Colline
page-ground = Sol
page-hill-act = Action
page-hill-take = Déplacer le mât ici
page-shares = Habitants qu’un mât y atteindrait
page-share-from = { $share } % et plus
page-share-under = moins de { $share } %
page-shares-note = Part des habitants des lieux que veut le cahier des charges, chaque lieu compté avec la probabilité d’être desservi.

page-mast = Mât, à l’échelle
page-no-mast = Aucun mât n’est encore inscrit, rien ne peut donc être dessiné. Donner un mât au site dans le fichier de station.
page-public-outside = Public au-delà de { $distance }
page-set-to = réglé à { $power }
page-centre-at = centre { $height }
page-mast-spoken = Mât { $height }, { $bays ->
    [one] un élément
   *[other] { $bays } éléments
} centrés à { $centre }. { $outside }
page-horizon = Autour de l’horizon
page-horizon-aside = { $unit } ; hachuré : non autorisé
page-horizon-spoken = PAR par azimut sur des cercles de { $rings }. Au plus serré : { $tightest }
page-vertical-cut = Diagramme vertical
page-vertical-cut-aside = { $unit }, vers le maximum ; les lieux dans leur propre direction
page-vertical-cut-spoken = Gain selon la dépression dans la direction la plus forte. { $places }
page-below-horizon = sous l’horizon
page-unrolled = Le diagramme entier
page-unrolled-axes = azimut ; en hauteur, degrés sous l’horizon
page-unrolled-spoken = Gain par azimut et dépression, avec les lieux : { $places }
page-how-solved = Comment il a été résolu
page-currents = Courants le long des fils
page-currents-aside = vus du côté des éléments
page-currents-spoken = Dessin des fils avec leurs courants. { $says }
page-bay-at = élément { $bay }, { $height }
page-bays-table = Éléments
page-from-the-top = numérotés depuis le haut
page-bay = Élément
page-height = Hauteur
page-faces = Orientation
page-power = Puissance
page-peak-voltage = Tension de crête
page-phase = Phase
page-vswr = ROS
page-upside-down = à l’envers
page-harness = Câbles à couper
page-way-to-bay = De la voie à l’élément
page-way-bay = { $way } à { $bay }
page-cut = Couper à
page-longer = De plus
page-electrical = Électrique
page-share-of-power = Part
page-azimuth = Azimut
page-mask-in-hand = Marge sous le gabarit de l’autorisation
page-annex = PAR par azimut
page-annex-aside = la plus forte de toutes les dépressions ; hauteur équivalente Rec. UIT-R P.1546, 3 à 15 km
page-erp-vertical = Verticale
page-erp-horizontal = Horizontale
page-counted = Comptée
page-licence = Autorisation
page-effective-height = Hauteur équivalente
page-stand-off = déport { $distance }
page-tx-to-erp = De l’émetteur à la PAR
page-step = Étape
page-type-value = { $what }, à écrire avec son unité
page-old-value-stands = L’ancienne valeur, { $value }, compte encore.

page-in-reserve = en réserve : { $way }
page-fade-terms = De la parabole au récepteur
page-threshold-against = marge aux évanouissements de { $hand } sur { $wanted }
page-a-year = Perdu par an
page-signal-flow = Parcours des signaux
page-flow-spoken = Parcours des signaux. Sources : { $sources }. Qui écoute : { $outputs }.
page-sources = Sources
page-who-listens = Qui écoute
page-console = Console
page-symbols = Symboles
page-symbols-after = IEC 60617 pour les symboles généraux
page-lines = Traits
page-flow-lines = double : symétrique ; barré : numérique ; tireté : logique. Point : envoyé ; anneau : omis à dessein
page-buses = Bus
page-on-input = entrée { $input }
page-no-input = pas d’entrée
page-who-hears-whom = Qui entend qui
page-hears-yes = entend
page-hears-silent = muet quand un microphone est ouvert
page-hears-not-own = omis : sa propre voix
page-hears-own = sa propre voix lui revient
page-hears-no = rien : il n’a pas d’entrée

page-paper = Document
page-holds = Contient
page-format = Format
page-state = État
page-size = Taille
page-paper-ready = Prêt
page-paper-old = Ancien
page-paper-missing = Non écrit
page-write-papers = Écrire les documents
page-no-papers = Aucun document n’est connu pour cette station.
page-papers-coming = Recherche des documents
page-file-text = Texte du fichier de station
page-save-file = Enregistrer le fichier
page-take-back = Reprendre ce qui a été écrit
page-file-taken = Enregistré. La station a été évaluée à nouveau.
page-faults = Fautes
page-fault-count = { $count ->
    [one] { $count } faute, non enregistré
   *[other] { $count } fautes, non enregistré
}
page-fault-line = Ligne { $line }, colonne { $column } :
page-not-saved-yet = Changé ici, pas encore enregistré. Ctrl et S l’enregistrent.
page-file-stands = Le fichier est tel qu’affiché.
page-file-changed-title = Changé sur le disque entre-temps
page-take-theirs = Prendre le leur
page-keep-mine = Écrire le mien par-dessus
page-their-text = Leur texte
page-promised-value = Promis
page-measured = Mesuré
page-what-is-read = Ce qui est lu, et comment
page-readings = { $count ->
    [0] aucune mesure
    [one] une mesure
   *[other] { $count } mesures
}
page-instrument = Avec
page-accepted = Accepté
page-no-readings = Rien ne rayonne encore et rien n’est relié : il n’y a donc rien à mesurer.
page-readings-coming = Préparation des mesures
page-measured-by = Mesuré par, le
page-instruments-used = Appareils, étalonnés le
page-accepted-by = Accepté par, le
page-not-measured = non mesuré
page-change-told = { $says } : { $effect }
