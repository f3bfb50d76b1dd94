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
readings-error-above-0 = `{ $given }` : une erreur supérieure à 0 dB était attendue
readings-no-power = une puissance supérieure à 0 était attendue
readings-power-help = omettre la mesure si elle n’a pas été faite
readings-all-comes-back = { $reflected } réfléchis pour { $forward } directs : il ne peut pas revenir plus qu’il n’est envoyé
readings-swapped-help = les deux mesures sont-elles interverties ?
readings-where = un point demande un `place`, ou un `azimuth` et une `distance` supérieure à 0, et pas les deux
readings-where-help = par exemple `place = "HILL"`, ou `azimuth = "120°"` avec `distance = "2 km"`
readings-none = le fichier ne contient aucune mesure
readings-none-help = écrire ce qui a été lu sous `[meters]` et `[[points]]`
