# Ce que refusent les antennes faites de fils, et ce dont elles avertissent.

wires-none = l’antenne n’a pas de fils : donnez-en au moins un
wires-bad-frequency = fréquence { $frequency } : un nombre positif est attendu
wires-not-finite =
    fil `{ $wire }` : { $what ->
        [start] son début
        [end] sa fin
       *[radius] son rayon
    } n’est pas un nombre fini : donnez des mètres en nombres simples
wires-zero-length = le fil `{ $wire }` n’a pas de longueur : début et fin sont le même point ; déplacez un bout ou ôtez le fil
wires-bad-radius = fil `{ $wire }` : rayon { $radius } : un nombre positif est attendu
wires-too-thick =
    fil `{ $wire }` : le rayon { $radius } est trop épais pour ses segments de { $segment }, qui doivent avoir 1,5 rayon au moins : { $most ->
        [0] allongez-le
       *[other] donnez { $most } segments au plus, allongez-le
    }, ou modelez le tube en cage de fils minces
wires-crossing = les fils `{ $first }` et `{ $second }` se croisent ou se touchent en ({ $x }, { $y }, { $z }) m sans jonction : finissez-en un là sur l’axe de l’autre pour les joindre, ou écartez-les de plus de { $clear }
wires-overlap = les fils `{ $first }` et `{ $second }` se recouvrent depuis leur rencontre : ôtez-en un ou détournez-le
wires-inside = le fil alimenté `{ $wire }` est à l’intérieur de `{ $around }` (rayon { $radius }) : éloignez-le de cet axe de { $clear } au moins

wires-source-or-load =
    { $what ->
        [source] la source { $index }
       *[load] la charge { $index }
    }
wires-no-such-wire = { wires-source-or-load } nomme le fil { $wire }, mais les fils vont de 0 à { $last } : donnez l’indice d’un fil qui existe
wires-off-the-wire = { wires-source-or-load } sur le fil `{ $wire }` : la position { $position } n’est pas sur le fil : donnez une fraction de 0 à 1
wires-bad-value = { wires-source-or-load } sur le fil `{ $wire }` : { $value } n’est pas un nombre fini
wires-free-end = { wires-source-or-load } est à un bout libre du fil `{ $wire }`, où ne passe aucun courant : déplacez-la le long du fil
wires-junction = { wires-source-or-load } est là où le fil `{ $wire }` en rencontre { $others } autres : déplacez-la un peu le long du fil
wires-same-place = les sources { $first } et { $second } sont au même endroit du fil `{ $wire }` : gardez-en une

wires-below-ground = le fil `{ $wire }` atteint z = { $z } : sur un sol parfait chaque fil doit rester au-dessus de { $least }, ou finir à z = 0 pour être joint au sol
wires-along-ground = le fil `{ $wire }` court le long du sol, où son image annule son courant : levez son autre bout au-dessus de { $least }
wires-short-piece = le fil `{ $wire }` a des bouts, sources, charges ou bouts d’autres fils distants de { $piece }, à { $from } et { $to } de sa longueur : mettez-les au même endroit, ou à { $least } au moins (1,5 rayon)
wires-too-far = le fil `{ $wire }` est à { $wavelengths } longueurs d’onde du milieu de l’antenne : on en calcule { $most } au plus ; rapprochez-le, ou calculez-le seul
wires-too-large = l’antenne demande { $unknowns } inconnues, plus que { $most } : prenez des segments moins nombreux ou plus gros
wires-singular = la matrice est singulière à la précision du calcul : cherchez des fils qui coïncident presque
wires-no-port = il n’y a pas de source : nommez un fil et une position pour une au moins

wires-thick = le fil `{ $wire }` a { $radius } longueur d’onde de rayon : au-dessus de 0,020 un fil unique est trop grossier près d’un fil alimenté ; prenez une cage
wires-close = les fils `{ $first }` et `{ $second }` sont à { $apart }, moins de quatre rayons : les courants autour des tubes sont inégaux
wires-balance = le bilan de puissance vaut { $balance } : hors de 0,99 à 1,01 des fils sont trop épais, trop proches ou trop grossiers

wires-file-slip = `{ $key }` n’est pas connu ici ; vouliez-vous dire `{ $near }` ?
wires-file-choice = `{ $key }` : `{ $found }` : attendu, { $expected }
wires-file-number = `{ $key }` : { $problem }
wires-file-step = un pas de { $step }° : attendu, de 0,01 à 360
wires-file-angle =
    { $what ->
        [azimuth] un azimut
       *[elevation] une élévation
    } de { $angle }° : attendu, de −{ $most } à { $most }
wires-file-waves = { $powers } puissances et { $phases } phases pour { $sources } sources : donnez-en une de chaque
wires-file-z0 = z0_ohm { $ohm } : un nombre positif est attendu
wires-file-lines = { $lines } lignes pour { $sources } sources : donnez-en une à chacune
wires-file-line = une ligne de { $ohm } ohms, { $length } m : des nombres positifs sont attendus
wires-file-no-power = les sources ne livrent aucune puissance : donnez des volts à une au moins
wires-file-power = une puissance de { $power } W : attendu, 0 ou plus
wires-file-all-zero = toutes ses puissances sont 0 : donnez-en à une source
wires-file-no-current = la source { $source } ne porte aucun courant, donc n’a pas d’impédance : donnez-lui des volts ou ôtez-la
wires-file-unbalanced = la puissance des sources et ce qui est rayonné diffèrent { $balance } fois : cette antenne ne peut être calculée ; elle est trop petite devant la longueur d’onde, ou ses fils sont trop épais ou trop proches
wires-file-beyond = `{ $key }` sort de tout nombre : cette antenne ne peut être calculée

wires-size = { $segments } segments, { $unknowns } inconnues
wires-source = source { $source } : { $impedance }
wires-gain = gain maximal { $gain } à l’azimut { $azimuth }°, élévation { $elevation }°
wires-power = bilan de puissance { $balance }
wires-caution = attention : { $what }
