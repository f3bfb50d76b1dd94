# Ce que dit la ligne de commande.

ask-head = { $erp } depuis { $mast } au-dessus du sol, { $ground } :
ask-band = { $service ->
    [stereo] stéréo sur une antenne de toit
    [mono] mono sur une antenne de toit
   *[car] mono en voiture
} { $likely }, entre { $low } et { $high }{ $rim }
ask-rim = {" "}(le plus loin dépasse ce qui a été calculé)
ask-power = { $erp } viennent de { $power } à l’émetteur : ligne et connecteurs { $line }, { $bays ->
    [one] un élément
   *[other] { $bays } éléments
} { $gain } par rapport au dipôle. Avec { $other ->
    [one] un élément
   *[other] { $other } éléments
}, ce serait { $other-erp }.
ask-matters = Ce qui change le plus :
ask-mast-up = un mât deux fois plus haut : stéréo jusqu’à { $distance }
ask-erp-down = ± { $db } de puissance : stéréo entre { $low } et { $high }
ask-other-bays = { $bays ->
    [one] un élément
   *[other] { $bays } éléments
} au lieu de { $now } ({ $db }) : stéréo jusqu’à { $distance }
ask-prediction = la prévision elle-même, ± { $db } : stéréo entre { $low } et { $high }
ask-spread = En un lieu donné, cela dépend de l’endroit où l’on vit et de ce qui l’entoure ; un écart-type vaut
ask-spread-at = { $listener ->
    [open] ± { $sum } sur une antenne de toit en rase campagne : d’un lieu à l’autre { $location } (rien à dix mètres au-dessus d’un sol dégagé, P.1812 § 4.7), erreur de la prévision { $model }
    [houses] ± { $sum } sur une antenne de toit parmi les maisons : d’un lieu à l’autre { $location }, erreur de la prévision { $model }
   *[indoors] ± { $sum } à l’intérieur : d’un lieu à l’autre { $location }, d’un bâtiment à l’autre { $building } (P.2109), erreur de la prévision { $model }
}
ask-direction = la direction : un dixième de l’horizon reçoit à moins de { $low }, un dixième à plus de { $high }
ask-questions = Pour en savoir plus :
ask-q-site = 1. Où exactement se dresse le mât, et à quelle altitude est le sol ?
ask-q-places = 2. Quels lieux doivent l’entendre, et à l’intérieur, en voiture ou sur un toit ?
ask-q-licence = 3. Cette puissance est-elle à l’émetteur ou rayonnée, et que permet l’autorisation, dans quelles directions ?
ask-site = Vu de { $place }.
ask-tiles = le terrain des tuiles
ask-generated = { $ground ->
    [island] île inventée
    [rolling] plaine vallonnée inventée
    [alpine] vallée alpine inventée
   *[coast] côte vallonnée inventée
}
ask-no-power = La puissance doit être supérieure à 0 W.
ask-no-mast = --mast { $given } : une hauteur de { $least } à { $most } au-dessus du sol est attendue.
ask-no-ground = Le terrain n’a pas d’altitude à { $at }.
ask-outside = { $at } est hors du terrain inventé ; donner --tiles, ou omettre --at pour un mât près de son plus grand lieu.
ask-no-tile = Aucune tuile de { $folder } ne contient { $at }.
ask-no-site = Dire où se dresse le mât, par exemple --at "46.5 N 8.1 E".
ask-refused = { $reason }
cli-no-language = « { $given } » n’est pas une langue du programme : il a { $known }.
assess-invented = { $name } (inventé)
assess-asked = demandé
assess-short = manque
assess-in-hand = marge { $hand }
serve-short = manque : { $point }, { $answered } ({ $hand })
serve-papers = documents : { $folder }
serve-no-papers = les documents n’ont pas pu être écrits : { $why }
serve-port = port { $port } : { $why } ; en nommer un autre par --port
serve-page = page : { $address }  (Ctrl-C l’arrête)
