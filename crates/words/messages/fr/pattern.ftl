# Fichiers de diagrammes, et un diagramme mesuré posé sur le diagramme calculé.

pattern-line =
    ligne { $line } : `{ $text }` : il faut { $wanted ->
        [cut-before] un PATCUT avant les points
        [gain-unit] une unité de gain DBI ou DBD
        [level] un angle dans un tour et un niveau de 0 dB ou moins
       *[number] un nombre avec un point décimal
    }
pattern-short = ligne { $line } : { $wanted } points annoncés, le texte s’arrête après { $found }
pattern-missing =
    il manque : { $what ->
        [gain] un gain (MDGAIN)
        [azimuth-cut] une coupe en azimut de ce plan
        [elevation-cut] une coupe en site de ce plan
        [comparable-cut] une coupe en azimut ou en site d’un plan que l’antenne possède
       *[cut] une coupe avec des points (PATCUT, NUPOIN)
    }
pattern-column = il manque : la colonne { $name }
pattern-grid =
    { $rows } lignes pour { $bearings } azimuts et { $elevations } sites : donnez une grille complète à pas égaux, azimuts de 0 à moins de
    360, sites de -90 à 90
pattern-csv = ce n’est pas une table CSV : { $why }

pattern-form = { $path } : il faut un nom qui finit par .csv (une table) ou par .nsma, .adf ou .txt (NSMA WG16.99.050)
pattern-refused = { $path } : { $why }
pattern-written = Le diagramme est dans { $path }.
pattern-description = { $antenna } pour { $tag }, calculé
pattern-laid =
    { $path } posé sur le diagramme calculé, mesuré moins calculé, là où l’un des deux est à moins de { $within } de son maximum :
pattern-cut =
    Plan { $plane ->
        [horizontal] horizontal
       *[vertical] vertical
    }, { $kind ->
        [elevation] de haut en bas à { $at }° d’azimut
       *[azimuth] en rond à { $at }° de site
    } : au plus { $largest } à { $angle }°, efficace { $rms }, moyenne { $mean }, { $points } points
