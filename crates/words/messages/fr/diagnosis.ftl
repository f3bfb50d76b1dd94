# Ce qui peut ne pas aller dans une antenne, d’après les mesures.

fault-healthy = rien d’anormal
fault-upside-down = l’élément { $bay } est monté à l’envers
fault-dead-bay = l’élément { $bay } ne reçoit rien, son raccord est { $end ->
    [short] en court-circuit
   *[open] ouvert
}
fault-swapped = les câbles des éléments { $first } et { $second } sont intervertis
fault-wrong-velocity = le câble de l’élément { $bay } a une autre vitesse, environ { $velocity }, ou une autre longueur
fault-water-in-feeder = de l’eau dans le feeder principal, environ { $loss }
fault-water-in-branch = de l’eau dans le câble de l’élément { $bay }, environ { $loss }
fault-detuned = l’élément { $bay } est accordé { $by } MHz trop { $side ->
    [low] bas
   *[high] haut
}

readings-faults = le fichier de mesures contient { $count ->
    [one] une faute
   *[other] { $count } fautes
}
readings-error-above-0 = `{ $given }` : une erreur supérieure à 0 dB était attendue
readings-no-power = une puissance supérieure à 0 était attendue
readings-power-help = omettre la mesure si elle n’a pas été faite
readings-all-comes-back = { $reflected } réfléchis pour { $forward } directs : il ne peut pas revenir plus qu’il n’est envoyé
readings-swapped-help = les deux mesures sont-elles interverties ?
readings-where = un point demande un `place`, ou un `azimuth` et une `distance` supérieure à 0, et pas les deux
readings-where-help = par exemple `place = "HILL"`, ou `azimuth = "120°"` avec `distance = "2 km"`
readings-none = le fichier ne contient aucune mesure
readings-none-help = écrire ce qui a été lu sous `[meters]` et `[[points]]`

diagnosis-unknown-place = Les mesures nomment un lieu { $place } : ni un lieu de la station ({ $known }), ni un lieu du terrain ; donner un azimut et une distance.
diagnosis-no-prediction = Aucun champ ne peut être prévu à { $place } : { $why }
diagnosis-head = { $tag }, antenne { $antenna }, { $power } directs. Quand tout va bien, { $reflected } reviennent à l’émetteur.
diagnosis-meters = Lu : { $forward } directs, { $reflected } réfléchis.
diagnosis-not-read = –
diagnosis-point = point
diagnosis-azimuth = azimut
diagnosis-distance = distance
diagnosis-elevation = site
diagnosis-well = si tout va
diagnosis-spread = écart-type
diagnosis-read = lu
diagnosis-off = différence
diagnosis-before = (avant)
diagnosis-cause = { $share }  { $what }
diagnosis-one-of = l’un de ceux-ci, que les mesures ne séparent pas : { $faults }
diagnosis-next = Mesurer ensuite à { $point } : { $expected }.
diagnosis-next-if = { $field } si { $fault }
diagnosis-measure = Points qui en disent le plus, dans cet ordre :
diagnosis-as-meant = Le fichier dit que des éléments sont à l’envers ({ $bays }) ; l’antenne saine est ici celle qui était voulue, sans aucun à l’envers.
diagnosis-other-power = Les champs « si tout va » sont pour les { $set } réglés, et non pour les { $design } du projet.
diagnosis-meters-taken = L’exactitude des wattmètres n’est pas dite : { $error } est pris.
diagnosis-set-taken = L’exactitude de l’appareil de mesure n’est pas dite : { $error } est pris, le même en tout point.
diagnosis-repeat-taken = La répétabilité des mesures en un point n’est pas dite : { $error } est pris.
diagnosis-no-meters = Les puissances directe et réfléchie n’ont pas été lues ; ce sont elles qui révèlent le mieux un élément mort ou de l’eau, et elles ne coûtent rien.
diagnosis-against-prediction = Les champs sans mesure d’avant sont comparés à la prévision, dont l’écart-type compte comme leur erreur : une mesure de chaque point quand tout va bien en dirait bien plus.
diagnosis-climbing = Personne ne monte ni n’ouvre un raccord sous puissance : l’émetteur est d’abord arrêté et consigné, et le travail est fait par des pylônistes et une personne qualifiée.
