# Où dresser le mât : le terminal et la page.

masts-not-computed = L’emplacement du mât n’a pas pu être calculé : { $why }
masts-no-places = Aucun lieu à desservir n’est nommé : en nommer un par --place, ou un lieu dans [[brief.wanted]].
masts-too-many = { $count } lieux sont trop pour une recherche : 20 au plus.
masts-unknown-place = Il n’y a pas de lieu { $place } : donner son repère ou son nom dans le fichier de station, un lieu du terrain, ou une position telle que "46.5 N 8.1 E".
masts-no-frequency = La fréquence n’est pas connue : la donner à l’émission dans le fichier de station, ou par --frequency.
masts-no-power = La puissance rayonnée n’est pas connue : l’autorisation n’en nomme pas ; la donner par --erp.
masts-no-height = La hauteur de l’antenne n’est pas connue : la station n’a pas d’antenne sur un site ; la donner par --mast.
masts-head = Les meilleures collines pour { $places ->
    [one] un lieu
   *[other] { $places } lieux
} ({ $people }) avec { $erp } de PAR à { $height } au-dessus du sol sur { $frequency }, à moins de { $radius } de { $middle } :
masts-searched = { $cells } mailles de { $side } sur terre.
masts-none = Aucune maille de la zone ne dessert personne : plus de puissance, un mât plus haut, ou une autre zone.
masts-half-time = La part du temps de l’étude est laissée de côté : ce n’est qu’à la moitié du temps que les deux sens perdent autant.
masts-people-unknown = Le nombre d’habitants de { $place } n’est pas connu : il compte pour un.
masts-reaches = atteint { $reached } lieux sur { $places }
masts-working = Recherche de collines
masts-cancelled = Arrêté : aucune colline n’a été nommée.
