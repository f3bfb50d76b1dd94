# Constats par code, et ce que font leurs remèdes.

tx-01 = { $tag } : l’autorisation supporterait { $needed }, l’émetteur donne { $rated } : il manque { $short }.
tx-01-do = Prendre : { $name }
tx-02 = { $tag } prend { $power } sur { $rated } : il ne reste aucune marge.
tx-03 = { $tag } : ROS de { $vswr } à l’émetteur ; il se replie à { $limit }.
tx-04 = { $tag } demande { $power } ; cet émetteur ne descend pas sous { $least }.
tx-05 = { $tag } : { $carrier } est hors de la bande de { $from } à { $to }.
tx-06 = { $tag } : { $carrier } n’est pas sur le pas de { $raster }.
tx-06-do = Écrire { $near }
tx-07 = { $tag }, { $name }, n’est pas donné pour un service continu : rien ne prouve qu’il tienne.
tx-08 = { $tag } demande le triphasé ; { $site } est en monophasé.
tx-08-do = Faire amener le triphasé à { $site } (hors du prix)
tx-09 = Un second émetteur est demandé, et aucun n’attend en réserve de { $tag }.
tx-09-do = En ajouter un second semblable, avec : { $name }

fd-01 = { $tag } porte { $power } ; à chaud, au soleil et toute la journée, il n’admet que { $allowed }.
fd-01-do = Prendre : { $name }
fd-02 = Les connecteurs entre { $near } et { $far } portent { $power } ; ils admettent { $allowed }.
fd-03 = { $near } et { $far } ne s’accouplent pas : { $one } contre { $other }, et aucun adaptateur du catalogue ne les relie.
fd-04 = Entre { $near } et { $far } se trouve un adaptateur : { $name }.
fd-05 = { $tag } perd { $loss } : { $share } de la puissance chauffe la ligne.
fd-06-transmitter = { $tag } ne nomme aucun émetteur présent.
fd-06-antenna = { $tag } ne nomme aucune antenne présente.
fd-06-open = Aucun câble ne part de { $tag } : la chaîne s’arrête là.
fd-06-circle = Les câbles depuis { $tag } tournent en rond.
fd-06-other = Les câbles aboutissent à { $tag }, qui n’est pas l’antenne de ce programme.
fd-07 = { $tag } : aucun parafoudre dans la ligne.
fd-08 = { $tag }, { $name }, n’indique ni ses pertes ni sa puissance : on ne peut rien prouver.
fd-09 = Kits de mise à la terre du câble : { $there } ; il en faut { $wanted } pour le haut, le bas et l’entrée.
fd-09-do = Prévoir { $wanted } kits de mise à la terre
fd-10 = { $tag }, { $name }, monte au mât sans kit de mise à la terre : la foudre entre par une ligne que rien ne met à la terre.

an-01 = { $tag } : { $ways } voies au répartiteur, { $bays } éléments.
an-01-do = Prévoir { $ways } éléments
an-02 = { $tag } : { $bays } éléments et pas de répartiteur entre eux et le câble d’antenne.
an-03 = { $tag } : un élément reçoit { $power } ; élément et bretelle admettent { $allowed }.
an-04 = { $tag } : { $name } se corrode à l’air marin.
an-05 = { $tag } : l’élément { $bays } est monté à l’envers, dit le fichier. Le ROS ne le montre pas, le champ si.
an-05-do = Le retourner, flèche vers le haut
an-06 = { $tag } va de { $foot } à { $top } au-dessus du sol ; le mât s’arrête à { $mast }.
an-06-do = Placer son centre à { $centre }
an-07 = { $built ->
    [vertical] { $tag } rayonne dans le plan vertical, que l’autorisation ne nomme pas.
    [horizontal] { $tag } rayonne dans le plan horizontal, que l’autorisation ne nomme pas.
   *[mixed] { $tag } rayonne dans les deux plans ; l’autorisation n’en nomme qu’un.
}
an-07-do = { $licensed ->
    [vertical] Dresser les dipôles
   *[horizontal] Coucher les dipôles
}
an-08 = { $place }, { $depression } sous l’horizon, reçoit { $below } de moins que le lobe principal : il est dans un creux.
an-08-level = Annuler l’inclinaison
an-08-do = Combler le creux avec 70 % de la puissance dans la moitié haute
an-09 = { $tag } est calculée comme des éléments en espace libre ; un mât à côté déforme le diagramme de quelques décibels.
an-10-bay = { $tag } n’a pas d’antenne avec un élément du catalogue.
an-10-missing = { $path } n’est pas connu, et l’antenne ne peut pas être calculée sans cela.
an-10-refused = { $tag } : l’antenne ne peut pas être calculée : { $why }.
an-11 = { $tag } : { $ice } de givre et pas de capot sur les éléments : s’attendre à un repli de l’émetteur en hiver.
an-13 = { $tag } : { $ice } de givre et pas de capot sur les éléments. Un seul jour de givre par an dépasse ce que permet une présence à l’antenne de { $asked } de l’année.
an-14 = { $tag } : le répartiteur donne à l’élément { $bay } { $given } de la puissance, le projet en demande { $wanted }. Le diagramme calculé demande un répartiteur fait pour ce partage.
an-14-do = Partager à parts égales, garder les phases

li-01 = { $tag } : { $radiated } vers { $azimuth }, l’autorisation permet { $allowed } : { $over } de trop.
li-01-do = Régler la puissance d’après l’autorisation
li-02 = { $tag } reste { $under } sous l’autorisation dans toutes les directions.
li-02-condition = { $tag } reste { $under } sous ce que permettent les conditions de son autorisation.
li-03 = { $tag } : l’antenne est { $over } plus haut que l’autorisation ne le permet.
li-04 = { $tag } : le site est à { $off } de la position autorisée ; { $tolerance } sont tolérés.
li-05 = { $tag } : { $field } à { $distance }, vers { $azimuth } ; l’autorisation demande moins de { $below }.
li-05-do = Régler l’émetteur à { $power }
li-06 = { $tag } : { $radiated } sur { $allowed }. Un émetteur réglé 2 % trop haut dépasserait l’autorisation.
li-07 = { $tag } : la puissance ou la polarisation autorisée n’est pas connue ; rien n’est prouvé à leur égard.
li-08 = { $tag } rayonne { $erp } ; au moins { $least } sont demandés.
li-09 = { $tag } : l’autorisation prend fin le { $day }.
li-10 = { $site } : 2 × { $one } − { $other } tombe à { $product }, dans la bande aéronautique. Un filtre le réduit ; l’administration décide.

co-01 = { $service ->
    [stereo] { $place } reçoit { $field }, il manque { $short } pour la stéréo.
   *[mono] { $place } reçoit { $field }, il manque { $short } pour le mono.
}
co-01-hidden = { $service ->
    [stereo] { $place } reçoit { $field }, il manque { $short } pour la stéréo. Le sol à { $away } du mât prend { $taken }.
   *[mono] { $place } reçoit { $field }, il manque { $short } pour le mono. Le sol à { $away } du mât prend { $taken }.
}
co-01-mono = Ne promettre à { $place } que le mono
co-02 = { $there } habitants sont desservis à moins de { $radius } ; { $asked } étaient demandés.
co-03 = { $tag } : { $share } de l’étude est derrière des tuiles absentes.
co-03-do = Traiter les tuiles absentes comme la mer
co-04-surface = Les tuiles sont un modèle de surface : arbres et toits y sont, et rien n’est ajouté par-dessus.
co-04-none = Aucune occupation du sol n’est connue : arbres et bâtiments sont omis, et le champ en ville est montré trop fort.
co-05 = { $what }, à { $away }, est hors de l’étude de { $radius }.
co-05-do = Étudier jusqu’à { $radius }
co-06 = { $tag } : le champ n’a pas pu être calculé : { $why }.
co-07 = { $tag } : le pas d’étude de { $step } est grossier ; des collines entre les points échappent.
co-07-do = Étudier à 90 m
co-08 = D’après sa position, { $site } est dans l’eau. Latitude et longitude sont-elles justes ?
co-08-west = D’après sa position, { $site } est dans l’eau. La longitude est-elle ouest ?

lk-01 = Aucun bond ne mène de { $from } à { $to } : le programme n’arrive pas.
lk-01-reserve = Seule une voie de secours mène de { $from } à { $to } : le programme n’a pas de voie principale.
lk-01-do = L’envoyer par internet avec une paire de codecs
lk-02 = { $tag } : le rayon passe à { $clearance } du sol à { $away } ; il en faut { $short } de plus.
lk-02-both = Monter les antennes à { $from } et à { $to }
lk-02-do = Monter l’antenne de { $end } à { $to }
lk-03 = { $tag } : marge aux évanouissements de { $margin } ; { $wanted } est l’usage.
lk-04 = Le programme arrive pendant { $there } de l’année ; { $wanted } est demandé.
lk-04-do = Ajouter une voie de secours par données mobiles
lk-04-do-line = Ajouter une voie de secours par une ligne internet
lk-05-missing = { $tag } ne peut pas être calculé : { $path } n’est pas connu.
lk-05-why = { $tag } ne peut pas être calculé : { $why }.
lk-06 = { $tag } : { $carrier } est hors de la bande de son équipement radio.
lk-06-way = { $tag } : { $equipment } n’émet pas par { $way }.
lk-06-way-do = Utiliser à la place : { $equipment }
lk-07 = Le programme passe à l’antenne avec { $delay } de retard : écouter la console, pas l’antenne.
lk-08 = Une seconde voie vers l’émetteur est demandée ; il n’y en a qu’une.

st-01 = { $needed ->
    [one] Une personne parle
   *[other] { $needed } personnes parlent
} ; microphones présents : { $there }.
st-01-do = { $count ->
    [one] Ajouter un microphone
   *[other] Ajouter { $count } microphones
}
st-02 = Microphones : { $needed }. Entrées micro : { $there }.
st-03 = Sources stéréo : { $needed }. Entrées stéréo : { $there }.
st-04 = { $needed ->
    [one] Une voix
   *[other] { $needed } voix
} de l’extérieur, { $there ->
    [0] aucun retour N-1 : chacun s’entendrait lui-même.
    [one] un seul retour N-1 : un auditeur s’entendrait lui-même.
   *[other] { $there } retours N-1 : un auditeur s’entendrait lui-même.
}
st-04-fewer = { $there ->
    [0] Ne prendre aucun appel
    [one] Ne prendre qu’un appel à la fois
   *[other] Ne prendre que { $there } appels à la fois
}
st-05 = Appels : { $needed }. Hybrides téléphoniques : { $there }.
st-05-do = { $count ->
    [one] Ajouter un hybride
   *[other] Ajouter { $count } hybrides
}
st-06 = Personnes au studio : { $needed }. Casques : { $there }.
st-06-do = { $count ->
    [one] Ajouter un casque
   *[other] Ajouter { $count } casques
}
st-07 = Personnes au studio : { $needed }. Sorties casque : { $there }.
st-07-do = Ajouter un amplificateur de casques
st-08 = Microphones : { $needed }. Bras : { $there }.
st-08-do = { $count ->
    [one] Ajouter un bras
   *[other] Ajouter { $count } bras
}
st-09 = La coupure des écoutes et le voyant d’antenne demandent des sorties de commande : { $needed } ; la console en a { $there }.
st-10 = Il n’y a pas de voyant d’antenne.
st-10-do = Ajouter un voyant d’antenne
st-11 = Rien ne joue la musique : pas de poste de diffusion.
st-11-do = Ajouter un poste de diffusion
st-12 = Un lecteur de secours est demandé, et il n’y en a pas.
st-12-do = Ajouter un lecteur de secours
st-13 = Rien ne limite les crêtes : pas de traitement, et pas de limiteur dans l’émetteur.
st-13-do = Ajouter un traitement
st-14 = Personnes au studio : { $needed }. Places autour de la table : { $there }.
st-15 = L’usage est d’une paire de haut-parleurs d’écoute ; présents : { $there }.
st-15-do = { $count ->
    [one] Ajouter un haut-parleur
   *[other] Ajouter { $count } haut-parleurs
}
st-16 = La puissance du multiplex est limitée ici, et rien dans la chaîne ne la tient : un régulateur la mesure.
st-17 = Des données RDS sont demandées, et il n’y a pas de codeur RDS.
st-17-do = Ajouter un codeur RDS
st-18 = { $place } : { $used } unités de baie occupées sur { $offered } ; un cinquième devrait rester libre pour l’air.
st-19 = La voix demande { $needed } de gain ; la console en donne { $there }.
st-20 = { $tag }, { $name }, n’est pas fait pour marcher toute la journée.

pw-01 = { $site } consomme { $load } ; le raccordement donne { $capacity }.
pw-02 = { $site } n’a pas le secteur, et rien d’autre ne l’alimente.
pw-03 = { $site } reste à l’antenne { $there } sans secteur ; { $wanted } sont demandés.
pw-03-do = Mettre à { $site } : { $name }
pw-04 = { $site } : le local atteint { $room } au jour le plus chaud ; son matériel supporte { $allowed }.
pw-04-do = Faire passer { $air } d’air dans { $site }
pw-05 = { $tag } n’indique pas ce qu’il consomme : charge et chaleur n’en tiennent pas compte.
pw-06 = { $site } consomme { $load } ; batterie et groupe donnent { $output }.

sa-01 = { $place } : l’exposition atteint { $share } de la limite.
sa-01-fenced = { $place } est à moins d’une longueur d’onde d’un élément : à clôturer.
sa-02 = { $place } : ce qu’ajoute { $others } n’est pas connu ; la somme n’est pas complète tant qu’il ne l’a pas dit.
sa-03 = { $tag } : en émission, le public doit rester à { $public } des éléments, le personnel à { $workers }. Provisoire : un expert qualifié décide, mesures sur site à l’appui.
sa-04 = Ne monter que si tous les émetteurs du mât sont arrêtés et consignés, vérifiés à l’appareil, par des personnes formées et avec un plan de secours. Les règles locales priment.
sa-05 = Le secteur est dangereux : couper, consigner, décharger et mettre à la terre avant de toucher ; un électricien qualifié vérifie protections et terre. Ne jamais lever la terre de sécurité contre un ronflement.
sa-06 = Le mât attire la foudre : une seule barre de terre à l’entrée, chaque ligne y est reliée, personne au mât par temps d’orage. Un spécialiste conçoit la protection.
sa-07 = Le mât, sa fondation et ses haubans tiennent-ils, vent et givre compris : un ingénieur structures agréé en décide avant qu’on y accroche quoi que ce soit.

mo-01 = La station coûte { $price } ; il y a { $budget } : { $over } de trop.
mo-02 = { $id } ({ $shelf }) n’a pas de prix : la somme n’en tient pas compte.
mo-03 = Le tarif a { $days } jours ; { $lines } prix en viennent.
mo-04 = { $count ->
    [one] Le prix de { $first } est en { $from }
   *[other] { $count } prix sont en { $from }, dont celui de { $first }
}, et non en { $currency }, et n’entre dans aucune somme. Dire dans le fichier ce que vaut un { $from } : [[exchange]] avec tag = "{ $from }" et rate.
mo-05 = { $id } pèse { $mass } emballé ; un colis peut peser { $limit }.
mo-06 = Il reste { $days } jours jusqu’au { $day } ; matériel et équipe demandent d’ordinaire huit semaines.
mo-06-past = Le jour prévu de mise à l’antenne, le { $day }, est passé de { $days } jours.

br-01 = Le cahier des charges ne nomme aucun lieu qui doive entendre la station.
br-02 = Aucun budget n’est connu : rien ne permet de juger le prix.
br-03 = { $site } permet { $allowed } au-dessus du sol ; l’autorisation permettrait { $licensed }.
br-04 = { $tag } : la fréquence ou la puissance est supposée. Aucune autorisation ne soutient ce projet.
br-05 = Rien n’est encore choisi : `stationwright plan` avec ce dossier propose un projet, et --write l’inscrit dans le fichier.
br-06 = { $path } : rien au catalogue ne s’appelle { $id }. Aucune somme n’en tient compte.
br-06-do = Écrire { $near }
br-07 = Le fichier demande des phrases en « { $tag } » ; le programme a { $known }. La page et les documents sont dans une autre langue que celle qui était voulue.
br-07-do = Écrire { $tag }
