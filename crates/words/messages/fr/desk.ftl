# Mots du bureau derrière la page.

handle-power = puissance de l’émetteur
handle-limit = l’autorisation est pleinement utilisée à { $power }
handle-bays = éléments
handle-height = centre de l’antenne au-dessus du sol
rung-free-space = Espace libre
rung-obstacles = Relief et arbres sur le trajet
rung-curved-earth = Courbure de la Terre
rung-other-ways = Autres chemins de l’onde
rung-height = Descente jusqu’à l’auditeur
rung-walls = À travers les murs
rung-field = Champ
class-none = personne
class-open-mono = campagne, mono
class-open-stereo = campagne, stéréo
class-town-mono = ville, mono
class-town-stereo = ville, stéréo
class-city-mono = grande ville, mono
class-city-stereo = grande ville, stéréo
strip-method = Méthode
strip-step = Pas de l’étude
strip-ground = Terrain
strip-generated = généré, inventé
strip-tiles = { $tiles ->
    [0] aucune tuile
    [one] une tuile
   *[other] { $tiles } tuiles
}
strip-p1812 = Rec. UIT-R P.1812
figure-is = { $label } : { $value }
ladder-joints = Connecteurs ensemble
opening-antenna = { $power } à l’entrée, { $erp } à la sortie, sous l’autorisation dans toutes les directions de { $margin } ou plus.
opening-antenna-over = { $power } à l’entrée, { $erp } à la sortie : { $margin } de trop pour l’autorisation dans sa direction la plus stricte.
opening-sites = Les sites consomment ensemble { $drawn } ; le public reste à { $public } des éléments.
opening-money = { $capital } à construire, puis { $yearly } par an : { $over } sur les années comptées.
opening-coverage = { $people } l’entendent en stéréo sur une antenne de toit.
opening-coverage-short = { $place } reçoit { $field }, il manque { $margin } à ce qui était demandé.
opening-coverage-in-hand = Le lieu le plus mal servi, { $place }, reçoit { $field } avec une marge de { $margin }.
horizon-in-hand = marge de { $margin } à { $at }
horizon-over = { $margin } de trop à { $at }
offer-chosen = Le moins cher qui tient le cahier des charges
offer-chosen-nearly = Le moins cher qui tient ce qui peut l’être
offer-beside = { $axis ->
    [transmitter] Émetteur
    [feeder] Câble d’antenne
    [bays] Éléments
   *[height] Hauteur
}, un cran de { $more ->
    [yes] plus
   *[no] moins
}
offers-working = Recherche d’offres
offers-stopped = Arrêté : rien n’a été trouvé.
offers-old = La station a changé depuis ; ces offres vont à la précédente. Les refaire, ou annuler.
offers-gone = Cette offre n’est plus de cette station : refaire les offres.
offers-taken = Offre { $letter } prise : { $title }
more-people = { $people } habitants
more-mends = remédie à { $code }
progress-left = encore { $seconds } s
working-field = Calcul du champ

change-set = { $what } : { $to }, était { $from }
change-to = { $what } : { $to }
change-first = { $what } : { $to }, n’était pas indiqué
change-cleared = { $what } : n’est plus indiqué, était { $from }
change-added = { $what } : ajouté
change-added-of = { $what } : ajouté, { $thing }
change-removed = { $what } : retiré
change-removed-of = { $what } : retiré, { $thing }
change-made = { $what } : changé
change-more = { $count ->
    [one] et un changement de plus
   *[other] et { $count } changements de plus
}
change-key = { $key }, { $of }
change-key-of = { $key } de { $of }
change-text = Texte de { $file } modifié
change-effect = { $now }, était { $before }

name-items = { $of }
name-items-shelf = { $of }
name-items-count = Nombre de { $of }
name-items-place = Emplacement de { $of }
name-items-status = Sort de { $of }
name-cables = Câble { $of }
name-cables-shelf = Câble { $of }
name-cables-count = Nombre de câbles { $of }
name-cables-from = Départ du câble { $of }
name-cables-to = Arrivée du câble { $of }
name-antennas = Antenne { $of }
name-antennas-splitter = Répartiteur de { $of }
name-antennas-polarisation = Polarisation de { $of }
name-antennas-inverted-bays = Éléments à l’envers de { $of }
name-antennas-site = Site de { $of }
name-emissions = Émission { $of }
name-emissions-transmitter = Émetteur de { $of }
name-emissions-antenna = Antenne de { $of }
name-hops = Bond { $of }
name-hops-dish = Parabole du bond { $of }
name-hops-equipment = Équipement du bond { $of }
name-sites = Site { $of }
name-sites-position = Position de { $of }
name-sites-mast = Mât de { $of }
name-sites-supply-three-phase = Triphasé à { $of }
name-places = Lieu { $of }
name-places-position = Position de { $of }
name-rooms = Local { $of }

aerial-full = Résolue comme des fils minces à côté du mât, par la méthode des moments.
aerial-draft = Une ébauche par le modèle de réseau ; les fils suivent avec la réponse entière.
aerial-apart = L’ébauche par le modèle de réseau s’écartait de { $apart } au plus, à moins de 10 dB du maximum.
aerial-mean-height = Hauteur au-dessus du terrain moyen { $height }, de 3 à 16 km sur huit azimuts (47 CFR 73.313).
plane-vertical = plan vertical
plane-horizontal = plan horizontal
pattern-weakest = plus de { $below } dB au-dessous
pattern-within = à moins de { $below } dB du maximum
pattern-towards = maximum à { $azimuth }, { $depression } sous l’horizon
pattern-place = { $azimuth }, { $depression } vers le bas : { $erp }
current-weakest = moins de { $share } %
current-over = plus de { $share } % du plus grand
current-most-at = Le plus grand est de { $amps } crête, avec { $power } dans le répartiteur.
harness-longer = { $more } mm

desk-nothing-to-undo = Il n’y a rien à annuler.
desk-nothing-to-redo = Il n’y a rien à refaire.
desk-changed-meanwhile = Une autre main a changé le fichier entre-temps ; dans un instant son texte est ici, et le changement peut être refait.
desk-moot = Une question plus récente a été posée entre-temps.
desk-stopped = Arrêté. Ce qui est affiché est une ébauche ; le prochain changement la calcule en entier.
desk-no-such-paper = Il n’y a pas de document nommé { $name }.
desk-paper-not-written = Il n’est pas encore écrit : écrire d’abord les documents.
desk-file-by-another = { $file } changé sur le disque par une autre main
desk-file-gone = { $file } n’est plus sur le disque ; le prochain changement l’écrit de nouveau.
desk-file-beside-unsaved = { $file } a été changé sur le disque alors qu’un changement d’ici n’est pas enregistré. Ouvrir le fichier pour prendre les deux.
desk-file-faulty = { $file } a été changé sur le disque et contient { $count ->
    [one] une faute
   *[other] { $count } fautes
} ; la réponse du texte d’avant reste.
probe-nothing-radiates = Rien ne rayonne encore : il n’y a pas de champ à sonder.
probe-off-the-map = Ce lieu est hors de la carte.
probe-second = Par l’Irregular Terrain Model : { $field }, { $more }.
probe-ask = Montrer un point sur la carte, ou écrire le nom d’un lieu ou une position.

opening-link = { $path } d’air sur { $frequency }, { $margin } de plus que le besoin du récepteur.
opening-link-lost = { $path } d’air sur { $frequency }, { $margin } de plus que le besoin du récepteur ; perdu { $minutes } min par an.
opening-link-short = { $path } d’air sur { $frequency }, et il manque { $margin } au récepteur.
opening-link-line = Le programme va par { $way ->
    [same-building] câble dans un même bâtiment
    [internet] une connexion internet publique
    [fibre] fibre
   *[mobile-data] données mobiles
}, présent { $availability } de l’année.
hop-title = { $from } → { $to }
hop-way = { $way ->
    [radio] faisceau hertzien
    [same-building] câble dans un même bâtiment
    [internet] connexion internet publique
    [fibre] fibre
    [mobile-data] données mobiles
   *[unknown] voie non indiquée
}
hop-radio = { $path } par faisceau sur { $frequency }
hop-low-k = sol à k = { $k }
hop-clear = { $clear } de dégagement
hop-blocked = { $over } font obstacle
hop-clear-wanted = { $wanted } voulus, à { $at }
hop-radiated = Rayonné, PIRE
hop-air = Oxygène et vapeur d’eau
hop-trees = Arbres traversés par le trajet
hop-far-dish = Parabole de l’autre bout
hop-far-line = Ligne de l’autre bout
hop-received = Reçu
hop-multipath = Trajets multiples dans l’air
hop-rain = Pluie
hop-allowed = Perte permise, d’après le cahier des charges

opening-studio = { $speakers ->
    [0] Personne ne parle ni n’entend
    [one] Une personne parle et entend
   *[other] { $speakers } personnes parlent et entendent
}.
opening-studio-headroom = { $speakers ->
    [0] Personne ne parle ni n’entend
    [one] Une personne parle et entend
   *[other] { $speakers } personnes parlent et entendent
} ; la console a { $headroom } avant l’écrêtage.
studio-source = { $kind ->
    [host] Animateur
    [guest] Invité
    [playout] Diffusion
    [caller] Auditeur
    [contributor] Correspondant
   *[device] Appareil d’un invité
}
studio-source-of = { $kind ->
    [host] Animateur
    [guest] Invité
    [playout] Diffusion
    [caller] Auditeur
    [contributor] Correspondant
   *[device] Appareil d’un invité
} { $number }
studio-lacks = { $what ->
    [microphones] pas de microphone
    [microphone-inputs] plus d’entrée micro libre
    [line-inputs] plus d’entrée stéréo libre
    [hybrids] pas d’hybride téléphonique
   *[clean-feeds] plus de retour N-1 libre
}
studio-no-console = Pas de console
studio-bus-programme-letter = P
studio-bus-programme = programme
studio-bus-monitor-letter = É
studio-bus-monitor = écoute
studio-bus-clean-letter = N{ $number }
studio-bus-clean = retour N-1 { $number }
studio-of-needed = { $there } sorties pour { $needed } personnes
studio-to-air = Traitement, puis liaison
studio-headphones = Casques
studio-loudspeakers = Haut-parleurs
studio-muted = muets quand un microphone est ouvert
studio-not-muted = rien ne les coupe
studio-listener = { $who } entend
studio-hears-all-but = tout, sauf soi-même
studio-hears-own = le programme, avec sa propre voix
studio-on-air-light = Voyant d’antenne
studio-light = allumé quand un microphone est ouvert
studio-no-light = pas de voyant, ou pas de sortie de commande pour lui
studio-at-the-desk = À la table
studio-on-air = À l’antenne
studio-rack = Baie de { $units }, { $place }
paper-size = { $size } ko
