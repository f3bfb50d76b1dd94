# How a figure is found: the formula, where it stands, where it holds, and the test that witnesses it.

method-line-loss = α(f) = a·√f + b·f; loss = α·ℓ/100·√(1 + 0.0039·(T − 20))
    .clause = two-term line model with copper's temperature coefficient; the data sheet decides
    .validity = 10 MHz to 1 GHz, matched
    .witness = antenna::line, check rows of the line table
method-inline-loss = as rated on the shelf
    .clause = supplier's rating
    .validity = in the band it is made for
    .witness = shelf
method-joint-loss = 0.02 dB a mated pair, 0.05 dB an adapter
    .clause = common practice, no source
    .validity = FM band, clean contacts
    .witness = none
method-mismatch = −10·log(1 − Γ²)
    .clause = transmission-line theory
    .validity = any passive load
    .witness = antenna::line, compared with a general network library
method-array-gain = G = 4π|F|²/∮|F|²dΩ, currents from V = Z·I with the splitter and its tails
    .clause = array of half-wave dipoles, mutual impedance by the induced-EMF method (standard theory)
    .validity = thin dipoles near resonance; a round pole included, a lattice mast not
    .witness = antenna::array, tables of directivity and mutual impedance computed three ways
method-wires-gain = G = 4π|E|²·r²/(2η·P), currents from Z·I = V over all wires, the mast among them
    .clause = method of moments on thin wires (standard theory)
    .validity = thin wires in free space; a lattice of usual proportions for its face width
    .witness = antenna::wires, 29 reference cases within their tolerance
method-erp-chain = P_ERP = P_TX − ΣL + G_d
    .clause = Radio Regulations, No. 1.162
    .validity = gain over a half-wave dipole
    .witness = assess, chain added up in the other order
method-power-from-licence = P_TX = min over azimuth and plane of (P_licence − A(φ) + ΣL − G(φ))
    .clause = the licence
    .validity = strongest elevation of every azimuth
    .witness = assess, set power meets the mask exactly
method-licence-margin = 10·log(P_allowed(φ)/P_ERP(φ))
    .clause = the licence; rows joined straight in dB
    .validity = every degree of azimuth, strongest elevation
    .witness = assess, mask cases
method-line-rating = P(f) = P₁₀₀·α(100)/α(f), × temperature, sun, duty and 2S/(S²+1)
    .clause = conductor heating; derating factors are common practice
    .validity = up to 60 °C
    .witness = antenna::line::rating
method-connector-rating = P(f) = P₁₀₀·√(100/f), derated for temperature and standing waves
    .clause = IEC 61169 series, usable figures from memory
    .validity = cool cabinet
    .witness = antenna::line::rating
method-field = E = 199.36 + 20·log f + P_ERP − L_b
    .clause = Rec. ITU-R P.1812, basic transmission loss to field
    .validity = 30 MHz to 6 GHz, 0.25 to 3000 km; study step stated
    .witness = propagation::p1812, 65 reference cases to 0.001 dB
method-wanted-field = median at 10 m by surroundings, plus the loss of the listening situation
    .clause = Rec. ITU-R BS.412-9 § 1, Table 1; P.2108-1 § 3.1; P.2109-2
    .validity = FM broadcasting
    .witness = coverage, rows of the table
method-people = Σ n·Φ((E − E_wanted)/√(σ_L² + σ_M²))
    .clause = Rec. ITU-R P.1812 § 4.9 for σ_L; model error is an input
    .validity = expected number, not a headcount
    .witness = coverage, totals conserved to 10⁻⁶
method-free-space-diffraction = P_r = P_t + G_t + G_r − L_fs − L_d − L_g − L_f
    .clause = Rec. ITU-R P.525, P.526 § 4.5 (delta-Bullington), P.676
    .validity = clear or once obstructed paths
    .witness = propagation::hop, 24 paths
method-clearance = h − 0.6·F₁ at k = 4/3; h at low k
    .clause = Rec. ITU-R P.530 § 2.2.2; draft rule is common practice
    .validity = line-of-sight hops
    .witness = propagation::p526, Fresnel radius rows
method-availability = p = K·d^3.1·(1 + |ε|)^−1.29·f^0.8·10^(−0.00089·h − M/10), made annual, plus rain
    .clause = Rec. ITU-R P.530-17 § 2.3, P.838-3
    .validity = f ≥ 15/d GHz
    .witness = propagation::p530, check rows
method-leased = as promised or assumed
    .clause = contract
    .validity = leased ways
    .witness = none
method-count-rule = one for each person, source or pair
    .clause = common practice, no source
    .validity = speech studios
    .witness = assess, studio rule
method-mpx-power = mean of Δf² over 60 s against a sine of ±19 kHz
    .clause = Rec. ITU-R BS.412-9 § 2.5.1; SM.1268
    .validity = held there by a processor that controls it; measured on the day
    .witness = none
method-microphone-level = U = S·10^((L − 94)/20); 0 dBu = 0.7746 V
    .clause = definitions of pascal and dBu; line-up EBU R 68
    .validity = 80 dB SPL speech
    .witness = assess::proofs::studio
method-mains-load = Σ P; transmitters P_RF/η
    .clause = sum of the items on the site
    .validity = all at work
    .witness = assess::proofs::energy
method-reserve-time = t = E·DoD·η·0.8/P, then the generator's tank
    .clause = IEEE 485 for ageing, from memory
    .validity = steady load
    .witness = assess::proofs::energy
method-room-heat = T = T_out + P/(1.2·1005·V̇)
    .clause = heat carried by moving air
    .validity = steady state, no sun on the walls
    .witness = assess::proofs::energy
method-energy-year = P·8760 h·duty
    .clause = definition
    .validity = steady load
    .witness = assess::proofs::energy
method-screening = R = 1.6·√(1.64·P_ERP/(4π·S)), 1.6·√(49.2·P_ERP)/E; the larger, and the field of the wires' own currents
    .clause = FCC OET-65 form; limits of the country profile
    .validity = screening in the far field; a qualified assessor decides
    .witness = assess::proofs::exposure
method-exposure-point = Σ (E_i/E_limit)²; E from the currents on all wires, the larger of E and η·H, and not below the far field
    .clause = Recs. ITU-T K.52, K.70, cumulative ratio
    .validity = beyond one wavelength of a bay; measured on site by a qualified assessor; of a draft the sum over its dipoles
    .witness = antenna::wires::near, the closed form for a half-wave dipole
method-bill = Σ quantity × sell price
    .clause = price list
    .validity = prices of their date
    .witness = assess::proofs::money
method-running = energy + rent + fees + shares of the capital
    .clause = the brief and the country's prices
    .validity = a year like any other
    .witness = assess::proofs::money
method-present-value = C₀ + O·(1 − (1+r)^−n)/r
    .clause = annuity formula
    .validity = level yearly cost
    .witness = assess::proofs::money
