# Ce qui est refusé d’une couverture.

coverage-cancelled = interrompu
coverage-study =
    { $what ->
        [step] pas de l’étude `{ $value }` m : attendu, de 1 à 10 000 m
        [radius] rayon `{ $value }` km : attendu, de 0,1 à 300 km et deux pas au moins
        [azimuths] nombre d’azimuts `{ $value }` : attendu, de 1 à 1 000 000
        [receivers] récepteurs `{ $value }` : 120 millions au plus : un pas plus grand ou un rayon plus petit
        [receiving-height] hauteur de réception `{ $value }` m au-dessus du sol : attendu, de 1 à 3 000 m
        [location-percentage] pourcentage d’emplacements du champ d’affaiblissement `{ $value }` : attendu, 50 % : les autres suivent ensuite de la dispersion
        [square] côté du carré pour la dispersion `{ $value }` m : attendu, de 0 à 5 000 m
        [location-spread] dispersion selon l’emplacement `{ $value }` dB : attendu, de 0 à 30 dB
        [model-error] erreur du modèle `{ $value }` dB : attendu, de 0 à 30 dB
        [wanted-field] champ voulu `{ $value }` dBµV/m : attendu, de −100 à 200 dBµV/m
        [interference-time] pourcentage de temps du champ d’une station brouilleuse `{ $value }` : attendu, 50 % pour `half`, 1 % pour `hundredth`
        [place-distance] distance du lieu `{ $value }` km : 3 000 km au plus
        [path-length] longueur du trajet `{ $value }` km : attendu, de 0,01 à 3 000 km
        [losses-together] affaiblissements calculés ensemble `{ $value }` : 400 millions au plus : moins d’études à la fois
        [places-percentage] pourcentage d’emplacements `{ $value }` : attendu, de 0,01 à 99,99 %
        [cell-side] côté d’une cellule `{ $value }` m : attendu, de 1 à 100 000 m
        [cell-grid] côté d’une cellule `{ $value }` m : attendu, des cellules qui font une grille autour du site
        [cells] cellules de la grille `{ $value }` : 100 millions au plus : des cellules plus grandes
        [latitude] latitude du site `{ $value }`° : attendu, un rayon qui reste à 0,5° des pôles
        [mast-places] lieux à desservir `{ $value }` : attendu, de 1 à 20
        [mast-time] pourcentage de temps `{ $value }` : attendu, 50 % : là seulement les deux sens perdent autant
        [mast-erp] PAR `{ $value }` kW : attendu, de 0,000001 à 10 000 kW
        [mast-apart] distance entre collines `{ $value }` km : attendu, de 0 à 1 000 km
       *[mast-people] personnes d’un lieu `{ $value }` : attendu, de 0 à 1 000 000 000
    }
coverage-itm = modèle du terrain irrégulier : { $why }
coverage-too-many-rows = la table d’occupation du sol a plus de { $most } sortes d’environnement : fusionnez des classes
coverage-other-height = le champ a été prédit à la hauteur vraie de { $predicted }, et { $wanted } sont voulus : calculez-le à cette hauteur, ou selon l’occupation du sol

coverage-differs =
    { $what ->
        [antenna-height] la hauteur d’antenne
        [lapse-rate] le gradient ΔN
        [receiving-rule] la règle de réception
        [walker] le marcheur
        [site] le site
        [radius] le rayon
        [step] le pas de l’étude
        [azimuths] les azimuts
       *[method] la méthode (P.1812)
    }
coverage-not-together = des études calculées ensemble diffèrent par { coverage-differs } : seuls fréquence, polarisation, pourcentage de temps et N0 peuvent différer
coverage-other-survey = le relevé du sol diffère par { coverage-differs } : relevez le sol de nouveau, ou calculez sans relevé
coverage-survey-too-large = un relevé de ce sol prend { $megabytes } Mo, plus que { $most } Mo : un pas plus grand, un rayon plus petit, ou calculez sans relevé
coverage-other-lattice = les deux champs ont des récepteurs différents : calculez les deux avec un même site, rayon, pas et azimuts
coverage-at-the-site = le lieu est au site même (à { $distance }) : aucun trajet n’y mène
coverage-missing-ground = le sol manque à partir de { $from } du trajet : ajoutez la tuile, ou prenez le sol manquant pour la mer

coverage-table =
    { $table ->
        [wanted-fields] champs voulus
       *[protection-ratios] rapports de protection
    }, ligne { $line } : { $expected }
coverage-table-wants =
    { $what ->
        [surroundings] surroundings `rural`, `urban` ou `large city`
        [mode] mode `mono` ou `stereo`
        [field] un champ en dBµV/m
        [number] un nombre
        [deviation] une excursion de 75 ou 50 kHz
       *[mark] une marque
    }

coverage-contour = contour à { $level } : { $why }
coverage-contour-level = attendu, de −300 à 300 dB
coverage-contour-none = aucun tracé n’est revenu
