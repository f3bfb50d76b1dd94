# Ce qui est refusé du sol : tuiles, grilles de population, tables de lieux et d’occupation du sol.

terrain-position-not-finite = latitude `{ $lat }`, longitude `{ $lon }` : deux nombres finis de degrés sont attendus
terrain-position-latitude = latitude `{ $lat }`° : de −90 à 90 ; la latitude vient d’abord, les deux sont-elles inversées ?
terrain-position-longitude = longitude `{ $lon }`° : de −180 à 180 (jusqu’à 360, elle est ramenée)

terrain-cell = { $line }:{ $column }  { $what }
terrain-places-row = une ligne de CSV en UTF-8 est attendue : { $why }
terrain-places-column-twice = la colonne `{ $column }` figure deux fois
terrain-places-column-unknown = colonne inconnue `{ $column }` : attendu, { $columns }
terrain-places-column-missing = pas de colonne `{ $column }` : attendu, { $columns }
terrain-places-nameless = un lieu sans nom
terrain-places-number =
    { $column } `{ $text }` : attendu, { $column ->
        [lat] des degrés tels que `43.48`
        [lon] des degrés tels que `-35.49`
       *[people] un nombre tel que `1480`
    }
terrain-places-people = people `{ $people }` : attendu, zéro ou plus
terrain-places-surroundings = surroundings `{ $text }` : attendu, rural, urban ou large city

terrain-cover-row = table d’occupation du sol, ligne { $line } : { $what }
terrain-cover-twice = la classe { $class } figure deux fois, d’abord comme { $name }
terrain-cover-unknown = la classe { $class } n’est pas dans la table
terrain-cover-column = une colonne `{ $column }` est attendue
terrain-cover-code = code `{ $text }` : attendu, un nombre entier de 0 à 255
terrain-cover-metres = clutter_m `{ $text }` : attendu, des mètres tels que `15`
terrain-cover-height = clutter_m `{ $height }` : attendu, de 0 à 100 m
terrain-cover-mark = mark `{ $text }` : attendu, V, C, M, P ou I
terrain-cover-category = category `{ $text }` : attendu, water, open, suburban, urban, trees ou dense urban

terrain-hgt-name = `{ $name }` : attendu, un nom tel que `N46E008.hgt` ou `S46W066.hgt.gz` (le coin sud-ouest de la tuile)
terrain-hgt-size = { $name }  { $found } octets ; une tuile de 1″ en a { $one }, une de 3″ { $three } : copiez de nouveau le fichier
terrain-hgt-unreadable = { $name }  { $why }
terrain-gzip-damaged = le flux gzip est abîmé ({ $why }) : copiez de nouveau le fichier
terrain-unpacked-size = { $found } octets une fois dépaqueté, { $expected } attendus : copiez de nouveau le fichier
terrain-unpacked-beyond = plus de { $most } octets une fois dépaqueté
terrain-rows-unreadable = les lignes { $first } à { $last } ne se lisent pas ({ $why }) : copiez de nouveau le fichier

terrain-crs =
    { $crs ->
        [geographic] latitude et longitude (EPSG 4326)
        [utm-north] UTM fuseau { $zone } nord
        [utm-south] UTM fuseau { $zone } sud
        [web-mercator] Mercator du web (EPSG 3857)
       *[mollweide] Mollweide (ESRI 54009)
    }
terrain-grid-size = { $width } × { $height } échantillons : attendu, de 1 à { $most } de chaque côté
terrain-grid-step = espacement { $x } × { $y } : attendu, deux nombres positifs (lignes du nord au sud)
terrain-grid-beyond-pole = la grille va de { $south }° à { $north }° de latitude, plus que la Terre n’en a : latitude et longitude sont-elles inversées ?
terrain-grid-too-wide = la grille va de { $west }° à { $east }° de longitude : attendu, 360° au plus entre −360° et 360°
terrain-grid-corner = coin en x { $x }, y { $y } : ce n’est pas un lieu en { $crs }

terrain-block-size = le bloc { $block } contient { $found } échantillons, { $expected } attendus : l’en-tête et les données du fichier se contredisent
terrain-block-undecodable = le bloc { $block } ne se décode pas ({ $why }) : copiez de nouveau le fichier
terrain-blocks-too-many = { $blocks } blocs : { $most } au plus ; réécrivez le fichier en tuiles ou en bandes plus grandes
terrain-block-too-large = des blocs de { $samples } échantillons : { $most } au plus ; réécrivez le fichier en tuiles ou en bandes plus petites

terrain-tiff-unreadable = ce TIFF ne se lit pas : { $why }
terrain-tiff-empty-blocks = des blocs de taille nulle
terrain-tiff-too-few-blocks = { $stored } bandes ou tuiles pour { $blocks } places : l’en-tête est abîmé
terrain-tiff-samples = { $found } : attendu, une bande de nombres entiers de 8, 16 ou 32 bits ou de flottants de 32 ou 64 bits
terrain-tiff-bands = { $bands } bandes
terrain-tiff-format = échantillons de { $bits } bits au format { $format }
terrain-tiff-compression = compression { $found } : attendu, aucune, LZW ou DEFLATE ; réécrivez le fichier avec l’une d’elles
terrain-tiff-no-place =
    pas de géoréférence ({ $missing ->
        [keys] pas de répertoire de clés, balise 34735
        [tie-points] des points de calage qui ne sont pas un coin, balise 33922
        [matrix] une matrice trop courte, balise 34264
       *[corner] pas de coin, balises 33550 et 33922 ou 34264
    }) : c’est une image, pas une carte
terrain-tiff-turned = la grille est tournée ou en miroir : lignes attendues du nord au sud ; redressez le fichier sur ses axes
terrain-tiff-crs =
    système de coordonnées { $known ->
        [nothing] sans code ni nom
        [name] `{ $name }`
        [code] EPSG { $code }
       *[both] `{ $name }` (EPSG { $code })
    } : attendu, EPSG 4326 ou 4258, UTM sur WGS 84 ou ETRS89, Mercator du web 3857 ou Mollweide 54009 ; reprojetez le fichier
terrain-tiff-unit =
    { $what ->
        [heights] hauteurs
       *[coordinates] coordonnées
    } dans l’unité { $code } (EPSG) : attendu, { $expected ->
        [degrees] des degrés (9102)
       *[metres] des mètres (9001)
    }
terrain-tiff-scaled = les échantillons demandent une échelle ou un décalage (balise 42112) : écrivez le fichier en valeurs simples

terrain-people-length = { $found } comptes pour { $expected } cellules
terrain-people-count = { $count } personnes en colonne { $column }, ligne { $row } : attendu, zéro ou plus ; la valeur « sans donnée » est-elle déclarée ?
terrain-people-too-many = { $cells } cellules de population : { $most } au plus ; prenez un rayon plus petit ou une grille plus grossière
terrain-people-elsewhere = la grille de population n’atteint pas la zone demandée

terrain-ground-tile = { $tile } : { $why }
terrain-ground-absurd-height = hauteur { $height } à { $lat }°, { $lon }° : attendu, de { $low } à { $high } ; la tuile est-elle en mètres, sa valeur de vide est-elle déclarée ?
terrain-ground-missing = pas de tuile de relief à { $lat }°, { $lon }° : ajoutez la tuile, ou prenez le sol manquant pour la mer
terrain-ground-all-void = aucune hauteur sur tout le trajet, chaque échantillon est vide : ajoutez une tuile remplie
terrain-ground-no-length = un trajet sans longueur : les deux bouts sont au même endroit
terrain-ground-no-path = trajet de { $length } à { $azimuth }° par pas de { $step } : attendu, un azimut fini, un pas positif et { $most } échantillons au plus
