# Ce que `path` dit d’un trajet radioélectrique. Les noms entre accents graves sont des clés de son fichier.

path-loss = affaiblissement de transmission de référence
path-free-space = dont espace libre
path-field-1kw = champ pour 1 kW de PAR
path-field = champ pour la PAR donnée

path-warning = avertissement : { $what }
path-resampled = le profil a moins de points que la méthode n’en veut ; il a été rééchantillonné
path-short = le trajet est plus court que le minimum de la méthode, 0,25 km ; l’espace libre a été pris
path-itm-warning =
    { $what ->
        [tx-height] antenne d’émission hors de 1 à 1000 m au-dessus du sol
        [rx-height] antenne de réception hors de 1 à 1000 m au-dessus du sol
        [frequency] fréquence hors de 40 MHz à 10 GHz
        [over-1000-km] trajet de plus de 1000 km
        [over-2000-km] trajet de plus de 2000 km
        [steep] trajet court pour la différence des hauteurs équivalentes
        [under-1-km] trajet de moins de 1 km
        [tx-horizon-angle] l’horizon de l’émetteur est à plus de 0,2 rad de l’horizontale
        [rx-horizon-angle] l’horizon du récepteur est à plus de 0,2 rad de l’horizontale
        [tx-horizon-near] l’horizon de l’émetteur est à moins d’un dixième de la distance sur Terre lisse
        [rx-horizon-near] l’horizon du récepteur est à moins d’un dixième de la distance sur Terre lisse
        [tx-horizon-far] l’horizon de l’émetteur est à plus de trois fois la distance sur Terre lisse
        [rx-horizon-far] l’horizon du récepteur est à plus de trois fois la distance sur Terre lisse
        [percentage] un pourcentage si proche de 0 ou de 100 que la dispersion est extrapolée
       *[refractivity] coïndice de réfraction au sol du trajet inférieur à 250 unités N
    }

path-no-file = ce n’est pas un fichier de trajet : { $why }
path-unreadable = illisible : { $why }
path-other-model = `format` vaut `{ $format }`, mais --model { $model } a été demandé
path-unknown-format = `format` vaut `{ $format }` : attendu `p1812-case/1` ou `itm-p2p-case/1`, ou indiquer --model
path-no-format = pas de `format` dans le fichier : indiquer --model p1812 ou --model itm
path-erp = `erp_kw` vaut { $erp } : une puissance supérieure à 0 kW est attendue
path-zone = point { $point } : zone `{ $zone }` : attendu 1 (mer), 3 (côte) ou 4 (terre)
path-polarisation = `pol` vaut `{ $pol }` : attendu `h` ou `v`
path-coast = `dct_km` et `dcr_km` : donner les deux, 0 km ou plus, ou aucun
path-place = `{ $end }_lat_deg` { $lat }, `{ $end }_lon_deg` { $lon } : attendu une latitude de −90 à 90° et une longitude de −180 à 180°
path-no-key = pas de `{ $key }` dans `profile`
path-no-profile = `profile_file` vaut `{ $name }`, mais il n’y a pas de { $looked }
path-is = `{ $key }` vaut { $value }
path-ground = `epsilon_r` vaut { $permittivity }, `sigma_s_per_m` { $conductivity }
path-over-profile = `n0` vaut { $n0 } sur ce profil
path-itm-refused = { $given } ; { $why } (code { $code })
