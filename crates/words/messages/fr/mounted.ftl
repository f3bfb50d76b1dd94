# Une antenne à la fois : telle qu’elle est, et formée pour les gens.

mounted-nothing = { $tag } : rien n’y rayonne encore : donner à l’émission une antenne avec des éléments, un émetteur et une puissance.
mounted-no-field = { $tag } : sa couverture n’a pas pu être calculée, il n’y a donc personne pour qui la former.
mounted-refused = { $tag } : { $why }
mounted-head = { $antenna } pour { $tag }, { $frequency } : { $model }
mounted-full = résolue comme des fils sur son mât
mounted-draft = une ébauche par le modèle de réseau, sans son mât, sauf un tube rond
mounted-apart = L’ébauche par le modèle de réseau s’en écarte de { $apart } au plus, à moins de 10 dB du maximum.
mounted-plane = Plan { $plane ->
   *[vertical] vertical
    [horizontal] horizontal
} : { $gain } à { $azimuth }, site { $elevation } ; PAR { $erp }
mounted-input = Au répartiteur : { $power }, ROS { $vswr }
mounted-bay = élém
mounted-height = hauteur m
mounted-azimuth = azimut
mounted-power = W
mounted-peak = V crête
mounted-phase = phase
mounted-share = part %
mounted-cut = coupe m
mounted-velocity = vélocité
mounted-annex = {" "}azimut verticale W horizontale W   permise W   marge dB     hauteur équiv. m
mounted-haat = Hauteur au-dessus du terrain moyen (47 CFR 73.313) : { $height }
mounted-shape-now = telle quelle
mounted-shape-equal = meilleure à parts égales
mounted-shape-shaped = formée
mounted-shape-assessed = formée, évaluée
mounted-shape-row = { $what } : { $people } habitants en stéréo sur le toit, { $power } au répartiteur, { $margin } sous l’autorisation
mounted-shape-as-many = L’antenne formée atteint avec { $power } autant d’habitants que la meilleure à parts égales.
mounted-shape-stand-off = Déport { $off } ; éléments numérotés depuis le haut, phases par rapport au plus haut, longueurs entre les plans de référence des connecteurs.
mounted-shape-looked = { $places ->
    [one] { $places } emplacement
   *[other] { $places } emplacements
} des éléments résolus, { $looks } excitations examinées.
mounted-written = { $count ->
    [one] { $count } changement inscrit
   *[other] { $count } changements inscrits
} dans { $file }. Le répartiteur doit partager comme le disent les parts : à parts égales, il ne donne que les phases.
mounted-not-written = Rien n’est inscrit ; avec --write les changements vont dans { $file } :
mounted-caution = Les éléments sont déplacés par des pylônistes, puissance coupée et consignée ; une personne qualifiée vérifie les bretelles avant le retour de la puissance.
