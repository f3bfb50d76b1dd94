# Ce que refusent les plans et les documents.

plan-not-a-station = le document ne se lit pas comme une station ; évaluez-le pour voir ses fautes
plan-nothing-to-choose = rien à choisir : { $why }
plan-no-emission = le fichier ne nomme aucune émission ; ajoutez `[[emissions]]` avec une fréquence et une licence
plan-no-site = le fichier ne nomme aucun site ; ajoutez `[[sites]]` avec une position et un mât
plan-not-licensed = l’émission `{ $tag }` demande une fréquence et une puissance autorisée ; `{"{"} assumed = .. {"}"}` suffit
plan-no-exchange = les prix sont en { $from }, la station compte en { $currency } ; dire ce que vaut un { $from } : [[exchange]] avec tag = "{ $from }" et rate
plan-no-ground = le sol n’a pas d’altitude au site `{ $site }` : corriger sa position, ou ajouter la tuile qui le contient
plan-no-design = aucune hauteur ne convient au mât, ou il manque à l’étagère un émetteur, un câble ou un élément avec un prix, dans le plan de la licence ; donnez au mât du site une hauteur au-dessus du sol
plan-cancelled = interrompu

papers-no-map = il n’y a pas de carte : rien ne rayonne encore ; donnez à la station une émission avec antenne et émetteur
papers-nothing-to-rig = il n’y a rien à monter : donnez à une émission une antenne avec un élément de l’étagère
papers-nothing-radiates = il n’y a rien pour une licence : rien ne rayonne encore ; donnez à une émission une antenne et un émetteur
papers-nothing-to-measure = il n’y a rien à mesurer : rien n’est promis encore
papers-not-set = la page n’a pu être composée : { $why }
papers-no-spreadsheet = le tableur n’a pu être écrit : { $why }
papers-not-packed = le tableur n’a pu être empaqueté : { $why }
papers-not-painted = le dessin n’a pu être peint : { $why }
papers-not-drawn = la carte n’a pu être dessinée : { $why }
papers-no-raster = l’image géoréférencée n’a pu être écrite : { $why }
papers-no-outlines = le fichier des contours n’a pu être écrit : { $why }
