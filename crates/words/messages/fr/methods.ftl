# Comment un chiffre est trouvé : la formule, où elle se trouve, où elle vaut, et l’essai qui en témoigne.

method-line-loss = α(f) = a·√f + b·f ; pertes = α·ℓ/100·√(1 + 0,0039·(T − 20))
    .clause = modèle de ligne à deux termes avec le coefficient de température du cuivre ; la fiche technique fait foi
    .validity = 10 MHz à 1 GHz, adaptée
    .witness = antenna::line, lignes de contrôle de la table des lignes
method-inline-loss = valeur du catalogue
    .clause = valeur du fournisseur
    .validity = dans la bande pour laquelle il est fait
    .witness = catalogue
method-joint-loss = 0,02 dB par paire accouplée, 0,05 dB par adaptateur
    .clause = usage courant, sans source
    .validity = bande FM, contacts propres
    .witness = aucun
method-mismatch = −10·log(1 − Γ²)
    .clause = théorie des lignes de transmission
    .validity = toute charge passive
    .witness = antenna::line, comparé à une bibliothèque générale de réseaux
method-array-gain = G = 4π|F|²/∮|F|²dΩ, courants d’après V = Z·I avec le répartiteur et ses bretelles
    .clause = réseau de dipôles demi-onde, impédance mutuelle par la méthode de la force électromotrice induite (théorie classique)
    .validity = dipôles minces près de la résonance ; un tube rond compris, un pylône en treillis non
    .witness = antenna::array, tables de directivité et d’impédance mutuelle calculées de trois façons
method-wires-gain = G = 4π|E|²·r²/(2η·P), courants d’après Z·I = V sur tous les fils, le mât compris
    .clause = méthode des moments sur fils minces (théorie classique)
    .validity = fils minces en espace libre ; un treillis de proportions usuelles pour sa largeur de face
    .witness = antenna::wires, 29 cas de référence dans leur tolérance
method-erp-chain = P_PAR = P_TX − ΣL + G_d
    .clause = Règlement des radiocommunications, n° 1.162
    .validity = gain par rapport au dipôle demi-onde
    .witness = assess, chaîne sommée dans l’autre sens
method-power-from-licence = P_TX = min sur azimut et plan de (P_autorisée − A(φ) + ΣL − G(φ))
    .clause = l’autorisation
    .validity = site le plus fort de chaque azimut
    .witness = assess, la puissance réglée atteint exactement le gabarit
method-licence-margin = 10·log(P_permise(φ)/P_PAR(φ))
    .clause = l’autorisation ; lignes jointes par des droites en dB
    .validity = chaque degré d’azimut, site le plus fort
    .witness = assess, cas de gabarit
method-line-rating = P(f) = P₁₀₀·α(100)/α(f), × température, soleil, service et 2S/(S²+1)
    .clause = échauffement du conducteur ; les facteurs de déclassement sont d’usage courant
    .validity = jusqu’à 60 °C
    .witness = antenna::line::rating
method-connector-rating = P(f) = P₁₀₀·√(100/f), déclassée pour la température et les ondes stationnaires
    .clause = série IEC 61169, valeurs utilisables de mémoire
    .validity = armoire fraîche
    .witness = antenna::line::rating
method-field = E = 199,36 + 20·log f + P_PAR − L_b
    .clause = Rec. UIT-R P.1812, de l’affaiblissement de transmission de référence au champ
    .validity = 30 MHz à 6 GHz, 0,25 à 3000 km ; pas de l’étude indiqué
    .witness = propagation::p1812, 65 cas de référence à 0,001 dB
method-wanted-field = médiane à 10 m selon l’environnement, plus les pertes de la situation d’écoute
    .clause = Rec. UIT-R BS.412-9 § 1, tableau 1 ; P.2108-1 § 3.1 ; P.2109-2
    .validity = radiodiffusion FM
    .witness = coverage, lignes du tableau
method-people = Σ n·Φ((E − E_voulu)/√(σ_L² + σ_M²))
    .clause = Rec. UIT-R P.1812 § 4.9 pour σ_L ; l’erreur du modèle est une entrée
    .validity = nombre attendu, non un recensement
    .witness = coverage, totaux conservés à 10⁻⁶
method-free-space-diffraction = P_r = P_t + G_t + G_r − L_fs − L_d − L_g − L_f
    .clause = Rec. UIT-R P.525, P.526 § 4.5 (delta-Bullington), P.676
    .validity = trajets dégagés ou à un seul obstacle
    .witness = propagation::hop, 24 trajets
method-clearance = h − 0,6·F₁ à k = 4/3 ; h à k bas
    .clause = Rec. UIT-R P.530 § 2.2.2 ; la règle de l’ébauche est d’usage courant
    .validity = bonds en visibilité
    .witness = propagation::p526, lignes du rayon de Fresnel
method-availability = p = K·d^3,1·(1 + |ε|)^−1,29·f^0,8·10^(−0,00089·h − M/10), ramené à l’année, plus la pluie
    .clause = Rec. UIT-R P.530-17 § 2.3, P.838-3
    .validity = f ≥ 15/d GHz
    .witness = propagation::p530, lignes de contrôle
method-leased = comme promis ou supposé
    .clause = contrat
    .validity = liaisons louées
    .witness = aucun
method-count-rule = un par personne, source ou paire
    .clause = usage courant, sans source
    .validity = studios de parole
    .witness = assess, règle du studio
method-mpx-power = moyenne de Δf² sur 60 s rapportée à une sinusoïde de ±19 kHz
    .clause = Rec. UIT-R BS.412-9 § 2.5.1 ; SM.1268
    .validity = tenue là par un traitement qui la règle ; mesurée le jour venu
    .witness = aucun
method-microphone-level = U = S·10^((L − 94)/20) ; 0 dBu = 0,7746 V
    .clause = définitions du pascal et du dBu ; alignement EBU R 68
    .validity = voix à 80 dB SPL
    .witness = assess::proofs::studio
method-mains-load = Σ P ; émetteurs P_RF/η
    .clause = somme des articles du site
    .validity = tous en marche
    .witness = assess::proofs::energy
method-reserve-time = t = E·DoD·η·0,8/P, puis le réservoir du groupe
    .clause = IEEE 485 pour le vieillissement, de mémoire
    .validity = charge constante
    .witness = assess::proofs::energy
method-room-heat = T = T_ext + P/(1,2·1005·V̇)
    .clause = chaleur emportée par l’air en mouvement
    .validity = régime établi, pas de soleil sur les murs
    .witness = assess::proofs::energy
method-energy-year = P·8760 h·service
    .clause = définition
    .validity = charge constante
    .witness = assess::proofs::energy
method-screening = R = 1,6·√(1,64·P_PAR/(4π·S)), 1,6·√(49,2·P_PAR)/E ; le plus grand, et le champ des courants des fils eux-mêmes
    .clause = forme de FCC OET-65 ; limites du profil du pays
    .validity = tri en champ lointain ; un expert qualifié décide
    .witness = assess::proofs::exposure
method-exposure-point = Σ (E_i/E_limite)² ; E d’après les courants de tous les fils, le plus grand de E et de η·H, et pas moins que le champ lointain
    .clause = Rec. UIT-T K.52, K.70, rapport cumulé
    .validity = au-delà d’une longueur d’onde d’un élément ; mesuré sur site par un expert qualifié ; pour une ébauche, la somme sur ses dipôles
    .witness = antenna::wires::near, la forme exacte d’un dipôle demi-onde
method-bill = Σ quantité × prix de vente
    .clause = tarif
    .validity = prix à leur date
    .witness = assess::proofs::money
method-running = énergie + loyer + redevances + parts du capital
    .clause = le cahier des charges et les prix du pays
    .validity = une année comme les autres
    .witness = assess::proofs::money
method-present-value = C₀ + O·(1 − (1+r)^−n)/r
    .clause = formule d’annuité
    .validity = coût annuel constant
    .witness = assess::proofs::money
