# Saisies refusées. On dit ce qui serait accepté.

words-or = { $first } ou { $last }
words-and = { $first } et { $last }

foreign = { $why }

words-above-ground = { $amount } au-dessus du sol
words-above-sea = { $amount } au-dessus de la mer
words-effective-height = { $amount } de hauteur équivalente
words-eirp = { $amount } PIRE

a-quantity =
    { $quantity ->
        [frequency] Une fréquence
        [deviation] Une excursion
        [power] Une puissance
        [radiated-power] Une puissance rayonnée
        [isotropic-power] Une puissance rayonnée
        [gain] Un gain
        [gain-over-dipole] Un gain
        [gain-over-isotrope] Un gain
        [ratio] Un rapport
        [field-strength] Un champ
        [power-density] Une densité de puissance
        [attenuation-by-length] Un affaiblissement linéique
        [vswr] Un taux d’ondes stationnaires
        [length] Une longueur
        [height] Une hauteur
        [height-above-ground] Une hauteur au-dessus du sol
        [height-above-sea] Une altitude
        [effective-height] Une hauteur équivalente
        [area] Une surface
        [volume] Un volume
        [angle] Un angle
        [azimuth] Une direction
        [elevation] Un angle de site
        [tilt] Une inclinaison
        [temperature] Une température
        [duration] Une durée
        [time-constant] Une constante de temps
        [mass] Une masse
        [force] Une force
        [speed] Une vitesse
        [bitrate] Un débit
        [percentage] Un pourcentage
        [voltage] Une tension
        [current] Un courant
        [resistance] Une résistance
        [apparent-power] Une puissance apparente
        [energy] Une énergie
        [charge] Une charge
        [level-dbu] Un niveau analogique
        [level-dbfs] Un niveau numérique
        [level-dbr] Une puissance de multiplex
        [loudness] Une sonie
        [sound-level] Un niveau sonore
        [money] Une somme d’argent
        [energy-price] Un prix de l’énergie
        [position] Une position
       *[other] Une grandeur
    }

quantity-empty = Rien ne figure ici. { a-quantity } s’écrit { $examples }.
quantity-not-a-number = { a-quantity } commence par un nombre : { $examples }. Ici figure « { $text } ».
quantity-not-finite = « { $text } » n’est pas un nombre utilisable. { a-quantity } s’écrit { $examples }.
quantity-missing-unit = { a-quantity } demande son unité : { $examples }.
quantity-unknown-unit = « { $unit } » n’est pas une unité connue ici. { a-quantity } s’écrit { $examples }.
quantity-unknown-unit-nearest = « { $unit } » n’est pas une unité connue ici. Faut-il lire { $nearest } ?
quantity-above-what = { $amount } au-dessus de quoi ? Du sol, de la mer, ou des terres alentour.
quantity-over-what = { $amount } par rapport à quoi ? { a-quantity } s’écrit { $examples }.
quantity-gain-over-what = { $amount } par rapport à quoi ? Écrire { $dipole } (par rapport au doublet) ou { $isotrope }.
quantity-wrong-reference = « { $found } » part d’ailleurs. { a-quantity } s’écrit { $examples }.
quantity-comma = Un fichier ne prend que le point décimal, sans marque entre les milliers. « { $text } » a une virgule.
quantity-two-readings = « { $text } » se lit { $decimal } ou { $thousands }. Écrire l’un des deux.
quantity-two-separators = « { $text } » a plus d’une marque dans son nombre. Une marque décimale suffit.
quantity-out-of-range = « { $text } » dépasse le possible. { a-quantity } se situe entre { $low } et { $high }.
quantity-unknown-currency = « { $currency } » n’est pas un code de monnaie ISO 4217. Une somme s’écrit { $examples }.
quantity-swapped = Aucune latitude ne dépasse 90°. Latitude et longitude sont-elles interverties dans « { $text } » ?
quantity-not-a-position = « { $text } » n’est pas une paire de coordonnées. Une position s’écrit { $examples }.

of-quantity =
    { $belongs ->
        [frequency] de fréquence
        [deviation] d’excursion
        [power] de puissance
        [radiated-power] de puissance rayonnée
        [isotropic-power] de puissance rayonnée
        [gain-over-dipole] de gain par rapport au dipôle
        [gain-over-isotrope] de gain par rapport à l’isotrope
        [ratio] de rapport
        [field-strength] de champ
        [power-density] de densité de puissance
        [attenuation-by-length] d’affaiblissement linéique
        [vswr] de taux d’ondes stationnaires
        [length] de longueur
        [area] de surface
        [volume] de volume
        [angle] d’angle
        [temperature] de température
        [duration] de temps
        [time-constant] de temps
        [mass] de masse
        [force] de force
        [speed] de vitesse
        [bitrate] de débit
        [percentage] de part
        [voltage] de tension
        [current] de courant
        [resistance] de résistance
        [apparent-power] de puissance apparente
        [energy] d’énergie
        [charge] de charge
        [level-dbu] de niveau analogique
        [level-dbfs] de niveau numérique
        [level-dbr] de puissance du multiplex
        [loudness] de sonie
        [sound-level] de niveau sonore
       *[other] d’autre chose
    }
quantity-wrong-unit = « { $unit } » est une unité { of-quantity }. { a-quantity } se donne { $examples }.

words-semicolon = {"\u00A0; "}
words-colon = {"\u00A0: "}
