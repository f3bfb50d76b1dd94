# Le résumé d’une station : la phrase, ce qui précède une signature, les étapes de la chaîne.
sentence-brief = { $points ->
    [0] Un cahier des charges sans aucun point, et pas encore de projet.
    [one] Un cahier des charges d’un seul point, et pas encore de projet.
   *[other] Un cahier des charges de { $points } points, et pas encore de projet.
}
sentence-station = Elle est entendue par { $people } personnes sur { $total } et coûte { $price }. Elle tient { $kept } des { $points } points de son cahier des charges.
sentence-station-in-part = Elle est entendue par { $people } personnes sur { $total }. Son coût n’est pas connu : { $price } ne compte que ce qui a un prix dans la monnaie de la station. Elle tient { $kept } des { $points } points de son cahier des charges.
lead = { $errors ->
    [0] { $warnings ->
        [0] Rien ne s’oppose à une signature.
        [one] Un point mérite un regard avant une signature.
       *[other] { $warnings } points méritent un regard avant une signature.
    }
    [one] { $warnings ->
        [0] Un point s’oppose à une signature.
        [one] Un point s’oppose à une signature, et un autre mérite un regard.
       *[other] Un point s’oppose à une signature, et { $warnings } autres méritent un regard.
    }
   *[other] { $warnings ->
        [0] { $errors } points s’opposent à une signature.
        [one] { $errors } points s’opposent à une signature, et un autre mérite un regard.
       *[other] { $errors } points s’opposent à une signature, et { $warnings } autres méritent un regard.
    }
}

stage-brief = Cahier des charges
stage-microphones = Microphones
stage-console = Console
stage-processing = Traitement
stage-link = Liaison
stage-transmitter = Émetteur
stage-feeder = Câble d’antenne
stage-antenna = Antenne
stage-field = Champ
stage-listener = Auditeur
stage-sites = Sites
stage-money = Argent

severity-error = Erreur
severity-warning = Alerte
severity-caution = Prudence
severity-note = Remarque
not-known = inconnu
mark-v = relevé dans sa source
mark-c = calculé par une formule donnée
mark-m = de mémoire de sa source, à confirmer
mark-p = usage courant, sans source
mark-i = inventé
between = de { $low } à { $high }
no-cost = sans frais

fig-power = { $tag } : puissance réglée de l’émetteur
fig-rated = { $tag } : puissance nominale de l’émetteur
fig-licence-power = { $tag } : puissance qui atteint juste l’autorisation
fig-line-loss = { $tag } : pertes de l’émetteur au répartiteur
fig-mismatch = { $tag } : pertes par désadaptation
fig-vswr-antenna = { $tag } : ROS à l’entrée du système d’antenne
fig-vswr-transmitter = { $tag } : ROS à l’émetteur
fig-gain = { $tag } : gain maximal, répartiteur et bretelles compris
fig-feed-loss = { $tag } : pertes du répartiteur et des bretelles
fig-height = { $tag } : centre de l’antenne au-dessus du sol
fig-erp-plane = { $plane ->
    [vertical] { $tag } : PAR maximale, plan vertical
   *[horizontal] { $tag } : PAR maximale, plan horizontal
}
fig-erp = { $tag } : PAR telle que l’autorisation la compte
fig-step-line = { $tag }, { $name }, { $length }
fig-step-inline = { $tag }, { $name }
fig-step-splitter = { $tag }, { $name }, au-delà du partage
fig-step-tails = { $tag }, { $name }, { $count } × { $length }
fig-joint = { $count ->
    [one] Raccord de { $near } à { $far }
   *[other] { $count } raccords de { $near } à { $far }
}
fig-licensed-erp = { $tag } : PAR autorisée
fig-licence-margin = { $tag } : marge sous l’autorisation, la plus faible à { $azimuth }
fig-erp-horizon = { $tag } : PAR vers l’horizon à { $azimuth }
fig-condition = { $tag } : champ là où regarde la condition { $number }
fig-licence-height = { $tag } : hauteur d’antenne sous celle autorisée
fig-licence-position = { $tag } : écart de l’antenne à sa position autorisée
fig-people = { $service ->
    [stereo] { $situation ->
        [roof] { $tag } : habitants en stéréo, antenne sur le toit
        [car] { $tag } : habitants en stéréo, en voiture
       *[indoors] { $tag } : habitants en stéréo, à l’intérieur
    }
   *[mono] { $situation ->
        [roof] { $tag } : habitants en mono, antenne sur le toit
        [car] { $tag } : habitants en mono, en voiture
       *[indoors] { $tag } : habitants en mono, à l’intérieur
    }
}
fig-land = { $service ->
    [stereo] { $situation ->
        [roof] { $tag } : surface en stéréo, antenne sur le toit
        [car] { $tag } : surface en stéréo, en voiture
       *[indoors] { $tag } : surface en stéréo, à l’intérieur
    }
   *[mono] { $situation ->
        [roof] { $tag } : surface en mono, antenne sur le toit
        [car] { $tag } : surface en mono, en voiture
       *[indoors] { $tag } : surface en mono, à l’intérieur
    }
}
fig-people-total = { $tag } : habitants dans le cercle de l’étude
fig-study-step = { $tag } : pas de l’étude
fig-study-radius = { $tag } : rayon de l’étude
fig-void = { $tag } : points sans altitude, comblés
fig-water = { $tag } : points au-dessus de l’eau
fig-missing = { $tag } : points sur des tuiles absentes
fig-clutter = { $tag } : ce qui couvre le sol
clutter-added = hauteurs des arbres et des bâtiments ajoutées au sol nu
clutter-in-surface = arbres et bâtiments sont dans le modèle de surface
clutter-none = pas d’occupation du sol, rien d’ajouté
fig-wanted = Champ voulu à { $place }
fig-field = Champ à { $place }
fig-erp-towards = PAR vers { $place }
fig-loss = Affaiblissement de transmission de référence vers { $place }
fig-distance = Distance de { $place }
fig-azimuth = Azimut de { $place }
fig-depression = { $place } sous l’horizon de l’antenne
fig-probability = Probabilité que { $place } soit desservi
fig-obstacle-loss = Ce que le terrain prend sur le trajet vers { $place }
fig-obstacle-distance = Le sol le plus gênant vers { $place }, depuis le mât
fig-area-people = Habitants desservis à moins de { $radius }
fig-area-share = Part desservie à moins de { $radius }
fig-area-total = Habitants à moins de { $radius }
fig-exposure-public = { $tag } : le public doit rester au-delà de
fig-exposure-workers = { $tag } : le personnel doit rester au-delà de
fig-exposure-screening = { $tag } : distance de tri en champ lointain, public
fig-exposure-by-bays = { $tag } : distance par la somme des éléments, public
fig-exposure-fence = { $tag } : clôture d’une longueur d’onde
fig-far-field = { $tag } : début du champ lointain
fig-exposure-point = Exposition à { $place }, part de la limite
fig-exposure-field = Champ à { $place }
table-exposure-limit = limite d’exposition { $limit }
fig-link-availability = Le programme arrive à l’émetteur
fig-received = { $tag } : niveau reçu
fig-hop-availability = { $tag } : part de l’année en service
fig-delay = { $tag } : retard
fig-path = { $tag } : longueur du bond
fig-free-space = { $tag } : affaiblissement en espace libre
fig-diffraction = { $tag } : pertes par diffraction à k = 4/3
fig-gas = { $tag } : pertes dans l’air et la vapeur d’eau
fig-eirp = { $tag } : PIRE
fig-fade-margin = { $tag } : marge aux évanouissements
fig-clearance = { $tag } : dégagement le plus faible à k = 4/3
fig-clearance-low-k = { $tag } : dégagement le plus faible à k bas
fig-outage = { $tag } : interruption
fig-count = { $what ->
    [microphones] Microphones
    [arms] Bras de microphone
    [microphone-inputs] Entrées micro
    [line-inputs] Entrées stéréo
    [clean-feeds] Retours N-1
    [hybrids] Hybrides téléphoniques
    [headphones] Casques
    [headphone-outputs] Sorties casque
    [monitors] Haut-parleurs d’écoute
    [control-outputs] Sorties de commande pour coupure et voyant
    [on-air-lights] Voyants d’antenne
    [playouts] Postes de diffusion
    [emergency-players] Lecteurs de secours
    [processors] Traitements ou limiteurs
   *[desk-seats] Places autour de la table
}
fig-microphone-level = Voix au microphone
fig-console-level = Sortie de la console
fig-open-microphones = Ce que coûtent ensemble les microphones ouverts
fig-mpx-power = Puissance du multiplex, tenue à
fig-rack = Unités de baie occupées à { $place }
fig-load-all = Puissance consommée, tous les sites
fig-load = { $site } : puissance consommée
fig-transmitter-mains = { $tag } : puissance prise au secteur
fig-heat = { $site } : chaleur laissée dans le local
fig-reserve = { $site } : durée à l’antenne sans secteur
fig-dark = { $site } : heures par an sans courant
fig-room = { $site } : local au jour le plus chaud
fig-air = { $site } : air nécessaire
fig-energy-year = Énergie par an
fig-capital = Prix de construction, transport et droits compris
fig-goods = Matériel et travaux
fig-work = Travaux
fig-freight = Transport
fig-duty = Droits de douane
fig-value-added-tax = Taxe sur la valeur ajoutée, hors du prix
fig-running = { $part ->
    [energy] Énergie par an
    [rent] Loyer par an
    [ways] Liaisons louées par an
    [maintenance] Entretien par an
    [insurance] Assurance par an
    [licence-fee] Redevance d’autorisation par an
    [music-rights] Droits musicaux par an
   *[staff] Personnel par an
}
fig-yearly = Coût de fonctionnement par an
fig-over-years = Valeur de l’ensemble sur la durée
fig-years = Années prises en compte
fig-mass = Masse de la livraison

whose-rating = puissance nominale de { $tag }
whose-connector = tenue des connecteurs
whose-licence = l’autorisation
whose-brief = le cahier des charges
whose-exposure = la limite d’exposition
whose-threshold = le seuil du récepteur
whose-ceiling = le plafond de la bande
whose-practice = l’usage courant
whose-clearance = la règle de dégagement
whose-gain = le gain de la console
whose-rack = les baies
whose-connection = le raccordement
whose-equipment = la valeur nominale du matériel
whose-budget = le budget

not-computable = la formule n’a pas de réponse pour ces entrées
missing-transmission = la chaîne de l’émetteur à l’antenne n’est pas complète
missing-rating = { $item } n’indique pas sa valeur nominale
missing-field = le champ n’a pas pu être calculé
missing-hop = le bond n’est pas complet
missing-availability = la méthode annuelle ne s’applique pas, ou le bond n’est pas complet
missing-mpx = rien dans la chaîne ne tient la puissance du multiplex
missing-count = le catalogue n’en dit pas le nombre
missing-fenced = à moins d’une longueur d’onde d’un élément : à clôturer

point-place = { $service ->
    [stereo] { $situation ->
        [roof] { $place } en stéréo
        [car] { $place } en stéréo, en voiture
       *[indoors] { $place } en stéréo, à l’intérieur
    }
   *[mono] { $situation ->
        [roof] { $place } en mono
        [car] { $place } en mono, en voiture
       *[indoors] { $place } en mono, à l’intérieur
    }
}
point-area = { $service ->
    [stereo] Habitants en stéréo à moins de { $radius }
   *[mono] Habitants en mono à moins de { $radius }
}
point-erp = PAR de { $tag }, sous l’autorisation
point-seats = Autour de la table, microphones
point-callers = Appels à la fois, retours N-1
point-without-mains = À l’antenne sans secteur, { $site }
point-price = Prix, transport et droits compris
lead-no-design = `stationwright plan` en choisit un : le moins cher qui tient le cahier des charges, ce qu’il ne peut pas tenir et pourquoi. Ce qui suit est demandé, pas encore répondu.

excluded-tax = Taxe sur la valeur ajoutée
excluded-freight = Transport
excluded-duty = Droits de douane
excluded-licence-fee = Redevances d’autorisation
excluded-music-rights = Droits musicaux
excluded-staff = Personnel
excluded-mast = Un mât ou un pylône
excluded-installation = Installation et mise en service
excluded-spares = Pièces de rechange
excluded-acoustics = Traitement acoustique
excluded-furniture = Mobilier
excluded-generator = Un groupe électrogène
excluded-reserve = Un second émetteur avec basculement
excluded-building = Gros œuvre, routes, raccordement au secteur, permis
excluded-contingency = Une provision pour imprévus
excluded-no-price = { $id } : le tarif n’en donne pas le prix

question-frequency = Quelle fréquence est autorisée, ou espérée ?
question-licence = Quelle puissance l’autorisation permet-elle, au total ou par plan, et dans quel plan ?
question-where = Quels lieux doivent l’entendre, en stéréo ou en mono, sur le toit, en voiture ou à l’intérieur ?
question-site = Où le mât peut-il se dresser, et où est le studio ?
question-budget = De combien d’argent dispose-t-on, et pour combien d’années ?
question-seats = Combien de personnes parlent à la fois autour de la table ?
question-callers = Combien d’auditeurs sont à l’antenne par téléphone à la fois ?
question-cuts = Le courant est-il souvent coupé, et combien de temps la station doit-elle tenir ?
question-existing = Quel matériel, quel mât ou quels locaux existent déjà ?
question-exposure = Où peut-on s’approcher du mât : chemins, terrasses, fenêtres ?

added-connector = monté aux bouts de câble selon la règle
added-adapter = deux côtés ne s’accouplent pas
added-foundation = fondation, ancrages, levage

along-azimuth = azimut
along-elevation = site
along-distance = distance
of-allowed = PAR permise par l’autorisation
of-radiated = PAR rayonnée
of-gain = gain
of-ground = sol et ce qui le couvre
of-ray = rayon à k = 4/3
of-zone = 60 % de la première zone de Fresnel

spread-sigma = ± { $spread }
spread-between = de { $low } à { $high }
against = { $whose } : { $limit }
effect-price = { $price }
effect-over-budget = { $price }, soit { $over } de plus que le budget
effect-people = { $people }
effect-both = { $price }, { $people }
effect-mends = y remédie
people-more = { $count ->
    [0] personne de plus
    [one] une personne de plus
   *[other] { $count } personnes de plus
}
people-fewer = { $count ->
    [0] personne de moins
    [one] une personne de moins
   *[other] { $count } personnes de moins
}
