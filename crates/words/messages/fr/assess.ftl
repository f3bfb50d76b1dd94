# Le résumé d’une station : la phrase, ce qui précède une signature, les étapes de la chaîne.
sentence-brief = { $points ->
    [one] Un cahier des charges d’un seul point, et pas encore de projet.
   *[other] Un cahier des charges de { $points } points, et pas encore de projet.
}
sentence-station = Elle est entendue par { $people } personnes sur { $total } et coûte { $price }. Elle tient { $kept } des { $points } points de son cahier des charges.
sentence-station-in-part = Elle est entendue par { $people } personnes sur { $total }. Son coût n’est pas connu : { $price } ne compte que ce qui a un prix dans la monnaie de la station. Elle tient { $kept } des { $points } points de son cahier des charges.
lead = { $errors ->
    [0] { $warnings ->
        [0] Rien ne s’oppose à une signature.
        [one] Un point mérite un regard avant une signature.
       *[other] { $warnings } points méritent un regard avant une signature.
    }
    [one] { $warnings ->
        [0] Un point s’oppose à une signature.
        [one] Un point s’oppose à une signature, et un autre mérite un regard.
       *[other] Un point s’oppose à une signature, et { $warnings } autres méritent un regard.
    }
   *[other] { $warnings ->
        [0] { $errors } points s’opposent à une signature.
        [one] { $errors } points s’opposent à une signature, et un autre mérite un regard.
       *[other] { $errors } points s’opposent à une signature, et { $warnings } autres méritent un regard.
    }
}

stage-brief = Cahier des charges
stage-microphones = Microphones
stage-console = Console
stage-processing = Traitement
stage-link = Liaison
stage-transmitter = Émetteur
stage-feeder = Câble d’antenne
stage-antenna = Antenne
stage-field = Champ
stage-listener = Auditeur
stage-sites = Sites
stage-money = Argent

severity-error = Erreur
severity-warning = Avertissement
severity-caution = Prudence
severity-note = Remarque
not-known = inconnu
mark-v = relevé dans sa source
mark-c = calculé par une formule donnée
mark-m = de mémoire de sa source, à confirmer
mark-p = usage courant, sans source
mark-i = inventé
between = de { $low } à { $high }
no-cost = sans frais
