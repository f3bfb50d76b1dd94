# Ce que refusent les méthodes de propagation.

propagation-out-of-range = `{ $quantity }` vaut { $value } ; { $method } tient de { $low } à { $high }

propagation-p1812-range =
    { $what ->
        [frequency] fréquence
        [time] pourcentage de temps
        [locations] pourcentage d’emplacements
        [spread] dispersion selon l’emplacement
        [lapse-rate] gradient du coïndice de réfraction
        [refractivity] coïndice de réfraction au sol
        [tx-height] hauteur de l’antenne d’émission au-dessus du sol
        [rx-height] hauteur de l’antenne de réception au-dessus du sol
       *[point] point de réception
    } `{ $value }` : la méthode veut de { $least } à { $most }
propagation-setups = { $setups } réglage(s) pour { $lists } liste(s) d’affaiblissements : donnez une liste par réglage, et des réglages d’une même hauteur d’antenne et d’un même gradient
propagation-receiver-heights = { $heights } hauteurs de réception pour un rayon de { $points } points : donnez-en une par point

propagation-profile-lengths = { $distances } distances, { $heights } hauteurs, { $clutter } hauteurs d’obstacles et { $zones } zones : donnez-en une de chaque par point
propagation-profile-too-few = { $points } point(s) de profil : un trajet en a deux au moins, l’émission d’abord et la réception à la fin
propagation-profile-start = la première distance est `{ $distance }` : l’émetteur est à 0 km
propagation-profile-not-rising = point { $point } : distance `{ $distance }` après `{ $before }` : les distances doivent croître strictement
propagation-profile-too-long = le trajet est long de `{ $distance }` : la méthode s’arrête à 3 000 km
propagation-profile-height = point { $point } : hauteur du sol `{ $height }` : attendu, de −500 à 9 000 m au-dessus de la mer
propagation-profile-clutter = point { $point } : hauteur d’obstacle `{ $height }` : attendu, de 0 à 200 m au-dessus du sol

propagation-itm-too-few = { $points } hauteurs données ; un profil en demande 2 au moins
propagation-itm-spacing = un espacement de { $spacing } est donné ; il doit dépasser 0
propagation-itm-height = la hauteur { $point } vaut { $height } ; les hauteurs vont de −500 à 9 000 m
propagation-itm-refused =
    { $why ->
        [tx-height] antenne d’émission : attendu, de 0,5 à 3 000 m au-dessus du sol
        [rx-height] antenne de réception : attendu, de 0,5 à 3 000 m au-dessus du sol
        [climate] climat : attendu, un code de 1 à 7
        [time] part du temps : attendu, plus de 0 et moins de 100 %
        [places] part des emplacements : attendu, plus de 0 et moins de 100 %
        [situations] part des situations : attendu, plus de 0 et moins de 100 %
        [refractivity] coïndice au niveau de la mer : attendu, de 250 à 400 unités N
        [frequency] fréquence : attendu, de 20 à 20 000 MHz
        [polarisation] polarisation : attendu, horizontale ou verticale
        [permittivity] permittivité du sol : attendu, 1 ou plus
        [conductivity] conductivité du sol : attendu, plus de 0 S/m
        [ground-impedance] constantes du sol : l’impédance de surface qu’elles donnent est réactive
        [variability] mode de variabilité : attendu, de 0 à 3, plus 10 et plus 20 au choix
        [earth-radius] rayon équivalent de la Terre : l’air et les hauteurs en donnent un hors de 4 000 à 13 333 km
        [surface-refractivity-low] coïndice au sol du trajet : sous 150 unités N, le sol est trop haut
       *[surface-refractivity-high] coïndice au sol du trajet : plus de 400 unités N, le sol est trop bas
    }

propagation-multipath-frequency = { $frequency } est sous la fréquence minimale de la méthode, { $least } à cette longueur
propagation-multipath-occurrence = un facteur d’occurrence de trajets multiples de { $occurrence } dépasse la méthode

propagation-hop-too-few = un profil demande trois points au moins, et autant de hauteurs que de distances
propagation-hop-not-rising = la distance { $point } du profil vaut { $distance } ; les distances partent de 0 et croissent strictement
propagation-hop-height = la hauteur { $point } du profil n’est pas finie
propagation-hop-bad-value =
    `{ $quantity }` vaut { $value } ; attendu, { $expected ->
        [above-zero] un nombre au-dessus de 0
        [under-a-right-angle] un angle de 0° à moins de 90°
       *[finite] un nombre fini
    }
propagation-hop-rain-missing = à { $frequency } on ne peut omettre la pluie : donnez l’intensité dépassée 0,01 % de l’année
