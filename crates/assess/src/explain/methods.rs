//! The methods behind the figures: formula, clause, validity, witness, mark.

use crate::method::Method;
use station::Mark;

macro_rules! methods {
    ($($name:ident { $formula:literal, $clause:literal, $validity:literal, $witness:literal, $mark:ident })*) => {
        $(
            #[doc = $formula]
            pub static $name: Method = Method {
                id: stringify!($name), formula: $formula, clause: $clause, validity: $validity, witness: $witness,
                mark: Mark::$mark,
            };
        )*
        /// Every method, for the papers' list of sources.
        pub static ALL: &[&Method] = &[$(&$name),*];
    };
}

methods! {
    LINE_LOSS { "α(f) = a·√f + b·f; loss = α·ℓ/100·√(1 + 0.0039·(T − 20))",
        "two-term line model with copper's temperature coefficient; the data sheet decides",
        "10 MHz to 1 GHz, matched", "antenna::line, check rows of the line table", Computed }
    INLINE_LOSS { "as rated on the shelf", "supplier's rating", "in the band it is made for", "shelf", Practice }
    JOINT_LOSS { "0.02 dB a mated pair, 0.05 dB an adapter", "common practice, no source", "FM band, clean contacts",
        "none", Practice }
    MISMATCH { "−10·log(1 − Γ²)", "transmission-line theory", "any passive load",
        "antenna::line, compared with a general network library", Computed }
    ARRAY_GAIN { "G = 4π|F|²/∮|F|²dΩ, currents from V = Z·I with the splitter and its tails",
        "array of half-wave dipoles, mutual impedance by the induced-EMF method (standard theory)",
        "thin dipoles near resonance; a round pole included, a lattice mast not",
        "antenna::array, tables of directivity and mutual impedance computed three ways", Computed }
    WIRES_GAIN { "G = 4π|E|²·r²/(2η·P), currents from Z·I = V over all wires, the mast among them",
        "method of moments on thin wires (standard theory)",
        "thin wires in free space; a lattice of usual proportions for its face width",
        "antenna::wires, 29 reference cases within their tolerance", Computed }
    ERP_CHAIN { "P_ERP = P_TX − ΣL + G_d", "Radio Regulations, No. 1.162",
        "gain over a half-wave dipole", "assess, chain added up in the other order", Computed }
    POWER_FROM_LICENCE { "P_TX = min over azimuth and plane of (P_licence − A(φ) + ΣL − G(φ))",
        "the licence", "strongest elevation of every azimuth", "assess, set power meets the mask exactly", Computed }
    LICENCE_MARGIN { "10·log(P_allowed(φ)/P_ERP(φ))", "the licence; rows joined straight in dB",
        "every degree of azimuth, strongest elevation", "assess, mask cases", Computed }
    LINE_RATING { "P(f) = P₁₀₀·α(100)/α(f), × temperature, sun, duty and 2S/(S²+1)",
        "conductor heating; derating factors are common practice", "up to 60 °C",
        "antenna::line::rating", Practice }
    CONNECTOR_RATING { "P(f) = P₁₀₀·√(100/f), derated for temperature and standing waves",
        "IEC 61169 series, usable figures from memory", "cool cabinet", "antenna::line::rating", Memory }
    FIELD { "E = 199.36 + 20·log f + P_ERP − L_b", "Rec. ITU-R P.1812, basic transmission loss to field",
        "30 MHz to 6 GHz, 0.25 to 3000 km; study step stated",
        "propagation::p1812, 65 reference cases to 0.001 dB", Computed }
    WANTED_FIELD { "median at 10 m by surroundings, plus the loss of the listening situation",
        "Rec. ITU-R BS.412-9 § 1, Table 1; P.2108-1 § 3.1; P.2109-2", "FM broadcasting",
        "coverage, rows of the table", Memory }
    PEOPLE { "Σ n·Φ((E − E_wanted)/√(σ_L² + σ_M²))", "Rec. ITU-R P.1812 § 4.9 for σ_L; model error is an input",
        "expected number, not a headcount", "coverage, totals conserved to 10⁻⁶", Computed }
    FREE_SPACE_DIFFRACTION { "P_r = P_t + G_t + G_r − L_fs − L_d − L_g − L_f",
        "Rec. ITU-R P.525, P.526 § 4.5 (delta-Bullington), P.676", "clear or once obstructed paths",
        "propagation::hop, 24 paths", Computed }
    CLEARANCE { "h − 0.6·F₁ at k = 4/3; h at low k", "Rec. ITU-R P.530 § 2.2.2; draft rule is common practice",
        "line-of-sight hops", "propagation::p526, Fresnel radius rows", Practice }
    AVAILABILITY { "p = K·d^3.1·(1 + |ε|)^−1.29·f^0.8·10^(−0.00089·h − M/10), made annual, plus rain",
        "Rec. ITU-R P.530-17 § 2.3, P.838-3", "f ≥ 15/d GHz",
        "propagation::p530, check rows", Memory }
    LEASED { "as promised or assumed", "contract", "leased ways", "none", Practice }
    COUNT_RULE { "one for each person, source or pair", "common practice, no source", "speech studios",
        "assess, studio rule", Practice }
    MPX_POWER { "mean of Δf² over 60 s against a sine of ±19 kHz", "Rec. ITU-R BS.412-9 § 2.5.1; SM.1268",
        "held there by a processor that controls it; measured on the day", "none", LookedUp }
    MICROPHONE_LEVEL { "U = S·10^((L − 94)/20); 0 dBu = 0.7746 V", "definitions of pascal and dBu; line-up EBU R 68",
        "80 dB SPL speech", "assess::proofs::studio", Computed }
    MAINS_LOAD { "Σ P; transmitters P_RF/η", "sum of the items on the site", "all at work",
        "assess::proofs::energy", Computed }
    RESERVE_TIME { "t = E·DoD·η·0.8/P, then the generator's tank", "IEEE 485 for ageing, from memory",
        "steady load", "assess::proofs::energy", Memory }
    ROOM_HEAT { "T = T_out + P/(1.2·1005·V̇)", "heat carried by moving air", "steady state, no sun on the walls",
        "assess::proofs::energy", Computed }
    ENERGY_YEAR { "P·8760 h·duty", "definition", "steady load", "assess::proofs::energy", Computed }
    SCREENING { "R = 1.6·√(1.64·P_ERP/(4π·S)), 1.6·√(49.2·P_ERP)/E; the larger, and the field of the wires' own currents",
        "FCC OET-65 form; limits of the country profile",
        "screening in the far field; a qualified assessor decides", "assess::proofs::exposure", Memory }
    EXPOSURE_POINT { "Σ (E_i/E_limit)²; E from the currents on all wires, the larger of E and η·H, and not below the far field",
        "Recs. ITU-T K.52, K.70, cumulative ratio",
        "beyond one wavelength of a bay; measured on site by a qualified assessor; of a draft the sum over its dipoles",
        "antenna::wires::near, the closed form for a half-wave dipole", Computed }
    BILL { "Σ quantity × sell price", "price list", "prices of their date", "assess::proofs::money", Computed }
    RUNNING { "energy + rent + fees + shares of the capital", "the brief and the country's prices",
        "a year like any other", "assess::proofs::money", Computed }
    PRESENT_VALUE { "C₀ + O·(1 − (1+r)^−n)/r", "annuity formula", "level yearly cost",
        "assess::proofs::money", Computed }
}
