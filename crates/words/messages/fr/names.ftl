# Noms de ce qu’un fichier de station peut dire.

name-ground-generated = Terrain généré
name-ground-model = Ce que mesure le modèle de terrain
name-study-step = Pas de l’étude
name-study-radius = Rayon de l’étude
name-study-time = Part du temps où le champ est tenu
name-study-places = Part des lieux où le champ est tenu
name-study-delta-n = Gradient de réfractivité ΔN, premier kilomètre
    .unit = unités N
name-study-n0 = Réfractivité N₀ au niveau de la mer
    .unit = unités N
name-study-location-spread = Dispersion du champ dans un petit carré
name-study-model-error = Erreur de la prévision, un écart type

name-brief-budget = Budget
name-brief-horizon = Années sur lesquelles le coût est compté
name-brief-discount-rate = Taux d’intérêt annuel
name-brief-energy-price = Prix de l’électricité
name-brief-seats = Personnes autour de la table
name-brief-seats-hosts = Animateurs autour de la table
name-brief-seats-guests = Invités autour de la table
name-brief-seats-operators = Techniciens en plus des animateurs
name-brief-seats-callers = Appels téléphoniques à la fois
name-brief-seats-contributors = Correspondants à la fois
name-brief-seats-duty = Part de l’année à l’antenne
name-brief-continuity-availability = Part de l’année où le programme doit passer
name-brief-continuity-without-mains = À l’antenne sans secteur
name-brief-delivery-duty = Droits de douane, part des marchandises
name-brief-delivery-freight = Transport de toute la livraison
name-brief-delivery-value-added-tax = Taxe sur la valeur ajoutée
name-brief-delivery-spare-lead-time = Délai d’une pièce de rechange
name-brief-running-maintenance = Entretien, part du prix par an
name-brief-running-insurance = Assurance, part du prix par an
name-brief-running-licence-fee = Redevance de licence par an
name-brief-running-music-rights = Droits musicaux par an
name-brief-running-staff = Personnel par an
name-brief-wanted-service = Service voulu, { $of }
name-brief-wanted-situation = Comment on écoute, { $of }
name-brief-wanted-surroundings = Ce qui entoure l’auditeur, { $of }
name-brief-wanted-share = Part des habitants voulue, { $of }
name-brief-wanted-within = Rayon voulu, { $of }

name-sites-ground = Altitude du sol, { $of }
name-sites-rent = Loyer par an, { $of }
name-sites-mast-kind = Type de mât, { $of }
name-sites-mast-height = Hauteur du mât, { $of }
name-sites-mast-width = Largeur du mât, { $of }
name-sites-mast-panel = Hauteur d’un panneau du mât, { $of }
name-sites-mast-leg = Diamètre des montants du mât, { $of }
name-sites-mast-bracing = Diamètre du treillis du mât, { $of }
name-sites-mast-spare-wind-area = Surface au vent que le mât supporte encore, { $of }
name-sites-supply-mains = Secteur, { $of }
name-sites-supply-voltage = Tension du secteur, { $of }
name-sites-supply-capacity = Puissance du raccordement, { $of }
name-sites-supply-cuts-per-week = Coupures de courant, { $of }
    .unit = par semaine
name-sites-supply-usual-cut = Durée d’une coupure usuelle, { $of }
name-sites-supply-peak-sun-hours = Plein soleil au pire mois, { $of }
    .unit = h par jour
name-sites-climate-sea-air = Air salin, { $of }
name-sites-climate-wind = Vent de base, { $of }
name-sites-climate-ice = Givre, épaisseur tout autour, { $of }
name-sites-climate-hottest = Jour le plus chaud dehors, { $of }
name-sites-climate-rain-mm-per-h = Pluie dépassée 0,01 % de l’année, { $of }
    .unit = mm/h
name-sites-climate-terrain-category = Classe de rugosité du sol, { $of }
name-sites-climate-flashes-per-km2-year = Foudre, impacts par km² et an, { $of }
name-sites-shelter-volume = Air du local technique, { $of }
name-sites-shelter-airflow-m3-h = Air à travers le local technique, { $of }
    .unit = m³/h
name-sites-shelter-cooling = Climatisation installée, { $of }
name-sites-shelter-warmest = Température maximale du local technique, { $of }
name-sites-public-points = Point accessible, { $of }
name-sites-others-exposure-share = Part de la limite d’exposition apportée par { $of }

name-emissions-frequency = Fréquence de { $of }
name-emissions-power = Puissance d’émetteur indiquée pour { $of }
name-emissions-licence-erp = PAR autorisée de { $of }
name-emissions-licence-height = Hauteur d’antenne autorisée de { $of }
name-emissions-licence-position = Position autorisée de { $of }
name-emissions-licence-polarisation = Polarisation autorisée de { $of }
name-emissions-licence-masks = Atténuation autorisée par azimut de { $of }
name-emissions-licence-conditions-below = Champ qu’une condition permet à { $of }

name-antennas-height = Hauteur de l’antenne { $of }
name-antennas-bays = Éléments de l’antenne { $of }
name-antennas-spacing = Distance entre éléments de l’antenne { $of }
name-antennas-element = Élément de l’antenne { $of }
name-antennas-azimuth = Direction de l’antenne { $of }
name-antennas-tilt = Inclinaison du faisceau de l’antenne { $of }
name-antennas-upper-half = Puissance dans la moitié haute de l’antenne { $of }
name-antennas-stand-off = Distance de l’antenne { $of } au mât

name-hops-way = Voie de la liaison { $of }
name-hops-from-height = Hauteur d’antenne de la liaison { $of }, côté studio
name-hops-to-height = Hauteur d’antenne de la liaison { $of }, autre bout
name-hops-line-loss = Pertes des câbles de la liaison { $of }, deux bouts
name-hops-availability = Part de l’année où la liaison { $of } doit marcher
name-hops-fee = Abonnement annuel de la liaison { $of }
name-hops-leased-availability = Part de l’année où la liaison { $of } louée marche

name-rooms-volume = Air de la pièce { $of }
name-rooms-warmest = Température maximale de la pièce { $of }
name-rooms-public-points = Point accessible, { $of }

name-cables-length = Longueur du câble { $of }
name-cables-temperature = Température du câble { $of } en service

name-of-within = à moins de { $radius }

value-yes = oui
value-no = non
value-roof = antenne sur le toit
value-car = voiture ou portable dehors
value-indoors = poste à l’intérieur
value-indoors-efficient-building = poste à l’intérieur, bâtiment isolé
value-rural = campagne
value-urban = ville
value-large-city = grande ville
value-mono = mono
value-stereo = stéréo
value-bare-ground = sol nu
value-surface = surface avec toits et arbres
value-demo-island = île inventée
value-rolling-plain = plaine vallonnée inventée
value-alpine-valley = vallée alpine inventée
value-hill-coast = côte vallonnée inventée
value-vertical = verticale
value-horizontal = horizontale
value-mixed = les deux plans
value-pole = tube
value-guyed-lattice = pylône haubané
value-self-supporting-lattice = pylône autoportant
value-same-building = câble dans le bâtiment
value-radio = faisceau hertzien
value-internet = accès internet
value-fibre = fibre
value-mobile-data = données mobiles

unit-year = an
unit-years = ans
unit-month = mois
unit-months = mois
unit-week = semaine
unit-weeks = semaines
unit-day = jour
unit-days = jours
unit-people = personnes
unit-a = ans

per-each = pce
per-metre = m
per-square-metre = m²
per-day = { $count ->
    [one] jour
   *[other] jours
}
per-job = { $count ->
    [one] forfait
   *[other] forfaits
}
