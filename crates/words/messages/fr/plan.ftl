# Ce que disent `plan` et `new`.

plan-head = { $holds ->
    [yes] Le projet le moins cher qui respecte l’autorisation et les souhaits : { $capital } à construire, { $over } sur { $years } avec le fonctionnement.
    [part] Le projet le moins cher qui respecte l’autorisation et tous les souhaits qui peuvent l’être : { $capital } à construire, { $over } sur { $years } avec le fonctionnement.
   *[no] Aucun projet ne respecte tout. Celui qui s’en approche le plus : { $capital } à construire, { $over } sur { $years } avec le fonctionnement.
}
plan-air = { $transmitter } réglé à { $power } ; { $feeder }, { $length } ; { $bays ->
    [one] un élément
   *[other] { $bays } éléments
} ({ $element }) à { $height } : { $loss } de pertes en ligne, { $erp } rayonnés.
plan-link = Programme depuis le studio : { $way }.
plan-link-short = Aucune voie du programme au catalogue n’est dégagée et en service aussi longtemps que demandé ; celle-ci s’en approche le plus.
plan-way = { $equipment } par { $over }{ $dish ->
    [yes] {", 2 × "}{ $dishes }
   *[no] {""}
}
plan-over = { $way ->
    [radio] faisceau hertzien
    [same-building] câble dans le bâtiment
    [internet] internet
    [fibre] fibre
   *[mobile-data] données mobiles
}
plan-no-air = La voie vers l’antenne n’a pas pu être calculée.
plan-looked = { $designs } projets, dont { $possible } pouvaient atteindre la puissance autorisée et { $evaluated } ont été évalués en entier. Taille de la station : { $tier }.
plan-wish = Souhait { $tag }{ $where } : { $kept ->
    [yes] tenu, marge { $margin }
    [area] tenu
   *[no] non tenu, marge { $margin }
}.
plan-wish-no-figure = Souhait { $tag }{ $where } : { $kept ->
    [yes] tenu
   *[no] non tenu
}.
plan-wish-area = Souhait { $tag }{ $where } : { $kept ->
    [yes] tenu
   *[no] non tenu
}, { $share } des habitants à moins de { $radius } desservis, { $wanted } voulus.
plan-impossible-offer = Aucune antenne proposée, à aucune hauteur que permettent le mât et l’autorisation, ne tient le souhait { $tag } : il manque au moins { $short }, car une partie de la puissance va ailleurs que vers le lieu. Un diagramme qui plonge vers lui, un peu plus de puissance ou un souhait plus modeste le tiendraient.
plan-impossible-area = Aucune antenne proposée, à aucune hauteur que permettent le mât et l’autorisation, ne tient le souhait { $tag }. Il faut plus de puissance, un site plus haut ou plus proche, ou un souhait plus modeste.
plan-impossible = Le souhait { $tag } ne peut pas être tenu dans cette autorisation : avec toute sa puissance droit vers le lieu, il manque encore { $short } de champ. Il faut autant de puissance en plus, un site plus haut ou plus proche, ou un souhait plus modeste.
plan-obstacle = Le sol dépasse le rayon de { $above }, à { $distance } de l’antenne.
plan-budget-kept = Budget { $budget } : il reste { $left }.
plan-budget-short = Budget { $budget } : il manque { $missing }.
plan-now = Avec l’argent disponible dès maintenant : { $erp } à l’antenne avec { $things } ; { $price }, il reste { $left }.
plan-now-air = La voie vers l’antenne est alors { $transmitter }, { $feeder }, { $bays ->
    [one] un élément
   *[other] { $bays } éléments
} : moins que ne le permet l’autorisation.
plan-now-thing = { $count ->
    [one] { $name }
   *[other] { $count } × { $name }
}
plan-now-reserve = un second { $name } avec son basculement
plan-now-breaks = Ce que le projet entier respecte et celui-ci non :
plan-now-none = Il n’achète aucune voie vers l’antenne qui puisse servir : la moindre coûte { $least } avant tout studio. Plus d’argent, du matériel prêté ou d’occasion, ou une autorisation plus modeste le permettraient.
plan-next = Ce qu’achète l’argent suivant, le plus nécessaire d’abord :
plan-next-step = { $thing } : +{ $price }, { $total } en tout
plan-blocked = Obstacle : { $why }
plan-under = L’émetteur donne { $under } de moins que ne le permet l’autorisation.
plan-beside = À côté, un cran de moins et un cran de plus :
plan-neighbour = { $axis ->
    [transmitter] Émetteur →
    [feeder] Câble d’antenne →
    [bays] Éléments →
    [link] Programme →
   *[height] Hauteur →
} { $what } : { $price } à construire, { $erp }{ $margin }{ $people }. { $why }
plan-neighbour-margin = {", plus faible marge d’un souhait "}{ $margin }
plan-neighbour-people = {", habitants en stéréo "}{ $people }
plan-why-link = Le programme n’arrive pas aussi longtemps que demandé.
plan-why-holds = Cela irait.
plan-why-blocked = Impossible : { $why }
plan-why-under = { $under } sous l’autorisation.
plan-why-unmet = Ne tient pas { $wishes }.
plan-at-height = { $height }
plan-bays-of = { $bays } × { $element }
plan-assumptions = Supposé, ce qui compte le plus d’abord :
plan-assumption = { $path } = { $value }{ $db }{ $money } : { $why }.
plan-assumption-db = , vaut { $db } à un souhait
plan-assumption-money = , vaut { $money } sur la durée
plan-presumed = Le cahier des charges laissait ceci ouvert ; la réponse est provisoire tant qu’on ne le sait pas :
plan-presumed-line = { $path }
plan-questions = Les questions qui comptent le plus :
plan-q-licence = 1. Y a-t-il une autorisation ou une offre de fréquence, et pour quelle puissance et quelle hauteur ?
plan-q-places = 2. Quels lieux doivent l’entendre, et sur une antenne de toit, en voiture ou à l’intérieur ?
plan-q-site = 3. Où l’antenne pourrait-elle se dresser : toit, colline ou mât de qui, à quelle hauteur, avec le secteur ?
plan-q-seats = 4. Combien de personnes parlent à la fois, avec combien d’auditeurs au téléphone, et qui installe ?
plan-q-money = 5. Combien d’argent y a-t-il tout de suite, et combien chaque année ?
plan-written = { $count ->
    [0] Aucun changement à inscrire dans { $file }.
    [one] Un changement inscrit dans { $file }.
   *[other] { $count } changements inscrits dans { $file }.
}
plan-not-written = Rien n’est inscrit ; --write met le projet dans { $file }.
new-made = Un cahier des charges à remplir : { $file }. Ensuite : stationwright plan { $folder }
plan-now-must = Ce que la loi, la sécurité ou l’alimentation interdisent d’omettre y est compris : { $things }.
plan-now-must-thing = { $thing } ({ $price })
plan-left-open = { $tag } n’est pas étudiée : un projet répond à la première émission. Lui donner son antenne et son émetteur dans le fichier, ou un fichier à elle.
