# Ce que refusent antennes, alimentations, lignes et chaînes.

antenna-quantity =
    { $what ->
        [a-bays-position-in-m] position d’un élément en m
        [a-row-of-the-mask-in-dbw] une ligne du gabarit en dBW
        [altitude-in-m-above-sea] altitude en m au-dessus de la mer
        [ambient-temperature-in-c] température ambiante en °C
        [attenuation-at-100-mhz] affaiblissement à 100 MHz
        [attenuation-at-the-frequency] affaiblissement à la fréquence
        [beam-tilt-in-degrees] inclinaison du faisceau en degrés
        [bearing-of-a-bay-in-degrees] azimut d’un élément en degrés
        [bearing-of-the-face-in-degrees] azimut de la face en degrés
        [centre-of-the-quarter-wave-section-in-mhz] centre du tronçon quart d’onde en MHz
        [characteristic-impedance-in-ohm] impédance caractéristique en ohms
        [conductor-loss-constant-a] constante de pertes a du conducteur
        [conductor-temperature-in-c] température du conducteur en °C
        [cutting-tolerance-in-mm] tolérance de coupe en mm
        [dielectric-loss-constant-b] constante de pertes b du diélectrique
        [directions-with-people-behind-them] directions où vivent des gens
        [excess-loss-of-the-splitter-in-db] perte propre du répartiteur en dB
        [face-of-the-lattice-in-m] face du treillis en m
        [facing-of-a-bay-in-degrees] orientation d’un élément en degrés
        [forward-power-in-w] puissance directe en W
        [frequency-in-mhz] fréquence en MHz
        [half-length-of-a-dipole-in-m] demi-longueur d’un dipôle en m
        [height-of-a-bay-in-m] hauteur d’un élément en m
        [height-of-the-place-in-m] hauteur du lieu en m
        [impedance-of-a-bay-in-ohm] impédance d’un élément en ohms
        [impedance-of-the-quarter-wave-section-in-ohm] impédance du tronçon quart d’onde en ohms
        [inner-conductor-in-mm] conducteur intérieur en mm
        [largest-stand-off-in-m] plus grand déport en m
        [least-stand-off-in-m] plus petit déport en m
        [length-of-a-branch-cable-in-m] longueur d’un câble de branche en m
        [length-of-mast-beyond-the-bays-in-m] longueur du mât au-delà des éléments en m
        [line-length-in-m] longueur de ligne en m
        [load-resistance-in-ohm] résistance de charge en ohms
        [loss-of-a-part-in-db] perte d’une partie en dB
        [matched-line-loss-in-db] perte de la ligne adaptée en dB
        [number-of-bays] nombre d’éléments
        [number-of-bays-in-two-halves] nombre d’éléments en deux moitiés
        [number-of-legs] nombre de montants
        [number-of-places-to-serve] nombre de lieux à desservir
        [number-of-trials] nombre d’essais
        [outer-conductor-in-mm] conducteur extérieur en mm
        [panel-of-the-lattice-in-m] panneau du treillis en m
        [power-at-the-splitter-in-dbw] puissance au répartiteur en dBW
        [power-at-the-splitter-in-w] puissance au répartiteur en W
        [power-rating-in-w] puissance admissible en W
        [power-share-of-a-branch] part de puissance d’une branche
        [radiated-power-in-w] puissance rayonnée en W
        [radius-of-a-dipole-in-m] rayon d’un dipôle en m
        [radius-of-the-diagonals-in-m] rayon des diagonales en m
        [radius-of-the-horizontals-in-m] rayon des traverses en m
        [radius-of-the-legs-in-m] rayon des montants en m
        [radius-of-the-pole-in-m] rayon du poteau en m
        [reflection-coefficient] coefficient de réflexion
        [reflection-factor-on-the-field] facteur de réflexion sur le champ
        [resistance-of-the-load-in-ohm] résistance de la charge en ohms
        [return-loss-in-db] affaiblissement d’adaptation en dB
        [rows-of-the-mask] lignes du gabarit
        [share-of-one-half] part d’une moitié
        [share-of-the-upper-half] part de la moitié haute
        [shortest-branch-cable-in-m] câble de branche le plus court en m
        [source-resistance-in-ohm] résistance de source en ohms
        [spacing-of-the-bays-in-m] écart des éléments en m
        [stand-off-of-a-bay-in-m] déport d’un élément en m
        [step-of-bearing-in-degrees] pas d’azimut en degrés
        [step-of-stand-off-in-m] pas de déport en m
        [sum-of-the-power-shares] somme des parts de puissance
        [system-impedance-in-ohm] impédance du système en ohms
        [tuning-of-a-bay-in-mhz] accord d’un élément en MHz
        [velocity-factor] facteur de vélocité
        [vswr] ROS
       *[other] une grandeur
    }
antenna-wanted =
    { $wanted ->
        [a-diameter-above-0] un diamètre au-dessus de 0
        [a-diameter-above-0-and-below-the-outer-one] un diamètre au-dessus de 0 et sous l’extérieur
        [a-distance-above-0] une distance au-dessus de 0
        [a-figure-above-0] un nombre au-dessus de 0
        [a-figure-above-0-and-at-most-1] un nombre au-dessus de 0, au plus 1
        [a-figure-from-0-to-below-1] un nombre de 0 à moins de 1
        [a-finite-bearing] un azimut fini
        [a-finite-erp] une PAR finie
        [a-finite-place] un lieu fini
        [a-finite-power] une puissance finie
        [a-frequency-above-0] une fréquence au-dessus de 0
        [a-height-within-500-m] une hauteur de moins de 500 m
        [a-length-above-0] une longueur au-dessus de 0
        [a-place-within-10-km-of-the-origin] un lieu à moins de 10 km de l’origine
        [a-power-above-0] une puissance au-dessus de 0
        [a-radius-above-0] un rayon au-dessus de 0
        [a-radius-above-0-and-below-a-fifth-of-its-half-length] un rayon au-dessus de 0 et sous le cinquième de sa demi-longueur
        [a-ratio-of-1-or-more] un rapport de 1 ou plus
        [above-0-and-below-1] plus de 0 et moins de 1
        [above-0-and-below-2] plus de 0 et moins de 2
        [above-0-and-below-a-quarter-of-the-face] plus de 0 et moins du quart de la face
        [an-even-number] un nombre pair
        [at-least-one] au moins un
        [at-least-one-share-above-0] au moins une part au-dessus de 0
        [between-minus-500-and-9000-m] entre −500 et 9 000 m
        [between-minus-80-and-200-c] entre −80 et 200 °C
        [between-minus-80-and-60-c] entre −80 et 60 °C
        [clear-of-half-waves] une demi-longueur loin d’un multiple de la demi-onde : le modèle sinusoïdal y est singulier
        [from-0] 0 ou plus
        [from-0-005] 0,005 ou plus
        [from-0-05-to-10] de 0,05 à 10
        [from-0-5-to-180] de 0,5 à 180
        [from-0-to-10-km] de 0 à 10 km
        [from-0-to-20] de 0 à 20
        [from-0-to-200] de 0 à 200
        [from-1] 1 ou plus
        [from-1-to-16] de 1 à 16
        [from-20-to-100000] de 20 à 100 000
        [from-the-least-to-20] du plus petit à 20
        [minus-45-to-45] de −45 à 45
        [three-or-four] 3 ou 4
       *[other] une autre valeur
    }
antenna-range = { antenna-quantity } vaut { $value } : donnez { antenna-wanted }

antenna-bay-count = l’empilement a { $bays } éléments : donnez-en de 1 à 64
antenna-length =
    { $what ->
        [currents] la liste des courants
        [scattering] la matrice de répartition
        [branches] la liste des branches
        [phases] la liste des phases
        [azimuths] la liste des azimuts des éléments
        [shares] la liste des parts des éléments
        [bay-phases] la liste des phases des éléments
       *[other] une liste
    } a { $given } entrées pour { $wanted } éléments : donnez-en une par élément
antenna-touching = les éléments { $first } et { $second } sont à { $distance } et se touchent : déplacez-en un de { $needed } au moins
antenna-inside-pole = l’élément { $bay } est à { $distance } de l’axe d’un poteau de { $radius } de rayon : déportez-le davantage
antenna-silent = aucun élément ne rayonne : donnez un courant à un élément au moins
antenna-singular =
    { $what ->
        [joint] la jonction à un élément
       *[feed] le réseau d’alimentation
    } n’a pas de solution à { $frequency } : cherchez-y une résonance ou un bout ouvert

antenna-inside-mast = l’élément { $bay } vient à { $distance } de l’axe d’un mât qui s’étend jusqu’à { $mast } : déportez-le davantage
antenna-unmatchable = l’élément { $bay } présente { $resistance } et ne peut être adapté : vérifiez ses longueurs et son déport
antenna-no-place = aucune des { $tried } places ne peut se construire ; la première échoue ainsi : { $first }
antenna-no-place-grid = une grille vide

antenna-part = partie { $part } : { $why }
antenna-part-cut = la partie { $part } ne laisse rien passer à { $frequency } : vérifiez son fichier
antenna-touchstone-line =
    ligne { $line } : `{ $text }` : attendu, { $wanted ->
        [figures] des nombres séparés par des blancs (un fichier de version 2 avec [keywords] n’est pas lu)
        [rising-frequency] une fréquence au-dessus de la précédente
       *[option-line] une ligne d’options telle que `# MHz S RI R 50` (seuls les paramètres S sont lus)
    }
antenna-touchstone-short = le texte s’arrête après { $found } nombres ; chaque fréquence d’un { $ports }-port en demande { $wanted }
antenna-touchstone-outside = { $frequency } est hors de la mesure, de { $from } à { $to }
antenna-touchstone-ports = la mesure a { $given } ports là où { $wanted } sont voulus
