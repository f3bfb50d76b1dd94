# Refusals of antennas, feeds, lines and chains.

# A quantity, and what would have been accepted.
antenna-quantity =
    { $what ->
        [a-bays-position-in-m] a bay's position in m
        [a-row-of-the-mask-in-dbw] a row of the mask in dBW
        [altitude-in-m-above-sea] altitude in m above sea
        [ambient-temperature-in-c] ambient temperature in °C
        [attenuation-at-100-mhz] attenuation at 100 MHz
        [attenuation-at-the-frequency] attenuation at the frequency
        [beam-tilt-in-degrees] beam tilt in degrees
        [bearing-of-a-bay-in-degrees] bearing of a bay in degrees
        [bearing-of-the-face-in-degrees] bearing of the face in degrees
        [centre-of-the-quarter-wave-section-in-mhz] centre of the quarter-wave section in MHz
        [characteristic-impedance-in-ohm] characteristic impedance in ohm
        [conductor-loss-constant-a] conductor loss constant a
        [conductor-temperature-in-c] conductor temperature in °C
        [cutting-tolerance-in-mm] cutting tolerance in mm
        [dielectric-loss-constant-b] dielectric loss constant b
        [directions-with-people-behind-them] directions with people behind them
        [excess-loss-of-the-splitter-in-db] excess loss of the splitter in dB
        [face-of-the-lattice-in-m] face of the lattice in m
        [facing-of-a-bay-in-degrees] facing of a bay in degrees
        [forward-power-in-w] forward power in W
        [frequency-in-mhz] frequency in MHz
        [half-length-of-a-dipole-in-m] half-length of a dipole in m
        [height-of-a-bay-in-m] height of a bay in m
        [height-of-the-place-in-m] height of the place in m
        [impedance-of-a-bay-in-ohm] impedance of a bay in ohm
        [impedance-of-the-quarter-wave-section-in-ohm] impedance of the quarter-wave section in ohm
        [inner-conductor-in-mm] inner conductor in mm
        [largest-stand-off-in-m] largest stand-off in m
        [least-stand-off-in-m] least stand-off in m
        [length-of-a-branch-cable-in-m] length of a branch cable in m
        [length-of-mast-beyond-the-bays-in-m] length of mast beyond the bays in m
        [line-length-in-m] line length in m
        [load-resistance-in-ohm] load resistance in ohm
        [loss-of-a-part-in-db] loss of a part in dB
        [matched-line-loss-in-db] matched line loss in dB
        [number-of-bays] number of bays
        [number-of-bays-in-two-halves] number of bays in two halves
        [number-of-legs] number of legs
        [number-of-places-to-serve] number of places to serve
        [number-of-trials] number of trials
        [outer-conductor-in-mm] outer conductor in mm
        [panel-of-the-lattice-in-m] panel of the lattice in m
        [power-at-the-splitter-in-dbw] power at the splitter in dBW
        [power-at-the-splitter-in-w] power at the splitter in W
        [power-rating-in-w] power rating in W
        [power-share-of-a-branch] power share of a branch
        [radiated-power-in-w] radiated power in W
        [radius-of-a-dipole-in-m] radius of a dipole in m
        [radius-of-the-diagonals-in-m] radius of the diagonals in m
        [radius-of-the-horizontals-in-m] radius of the horizontals in m
        [radius-of-the-legs-in-m] radius of the legs in m
        [radius-of-the-pole-in-m] radius of the pole in m
        [reflection-coefficient] reflection coefficient
        [reflection-factor-on-the-field] reflection factor on the field
        [resistance-of-the-load-in-ohm] resistance of the load in ohm
        [return-loss-in-db] return loss in dB
        [rows-of-the-mask] rows of the mask
        [share-of-one-half] share of one half
        [share-of-the-upper-half] share of the upper half
        [shortest-branch-cable-in-m] shortest branch cable in m
        [source-resistance-in-ohm] source resistance in ohm
        [spacing-of-the-bays-in-m] spacing of the bays in m
        [stand-off-of-a-bay-in-m] stand-off of a bay in m
        [step-of-bearing-in-degrees] step of bearing in degrees
        [step-of-stand-off-in-m] step of stand-off in m
        [sum-of-the-power-shares] sum of the power shares
        [system-impedance-in-ohm] system impedance in ohm
        [tuning-of-a-bay-in-mhz] tuning of a bay in MHz
        [velocity-factor] velocity factor
        [vswr] VSWR
       *[other] a quantity
    }
antenna-wanted =
    { $wanted ->
        [a-diameter-above-0] a diameter above 0
        [a-diameter-above-0-and-below-the-outer-one] a diameter above 0 and below the outer one
        [a-distance-above-0] a distance above 0
        [a-figure-above-0] a figure above 0
        [a-figure-above-0-and-at-most-1] a figure above 0 and at most 1
        [a-figure-from-0-to-below-1] a figure from 0 to below 1
        [a-finite-bearing] a finite bearing
        [a-finite-erp] a finite ERP
        [a-finite-place] a finite place
        [a-finite-power] a finite power
        [a-frequency-above-0] a frequency above 0
        [a-height-within-500-m] a height within 500 m
        [a-length-above-0] a length above 0
        [a-place-within-10-km-of-the-origin] a place within 10 km of the origin
        [a-power-above-0] a power above 0
        [a-radius-above-0] a radius above 0
        [a-radius-above-0-and-below-a-fifth-of-its-half-length] a radius above 0 and below a fifth of its half-length
        [a-ratio-of-1-or-more] a ratio of 1 or more
        [above-0-and-below-1] above 0 and below 1
        [above-0-and-below-2] above 0 and below 2
        [above-0-and-below-a-quarter-of-the-face] above 0 and below a quarter of the face
        [an-even-number] an even number
        [at-least-one] at least one
        [at-least-one-share-above-0] at least one share above 0
        [between-minus-500-and-9000-m] between −500 and 9000 m
        [between-minus-80-and-200-c] between −80 and 200 °C
        [between-minus-80-and-60-c] between −80 and 60 °C
        [clear-of-half-waves] a half-length clear of a multiple of half a wavelength: the sinusoidal model is singular there
        [from-0] 0 or more
        [from-0-005] 0.005 or more
        [from-0-05-to-10] 0.05 to 10
        [from-0-5-to-180] 0.5 to 180
        [from-0-to-10-km] 0 to 10 km
        [from-0-to-20] 0 to 20
        [from-0-to-200] 0 to 200
        [from-1] 1 or more
        [from-1-to-16] 1 to 16
        [from-20-to-100000] 20 to 100 000
        [from-the-least-to-20] from the least to 20
        [minus-45-to-45] −45 to 45
        [three-or-four] 3 or 4
       *[other] another value
    }
antenna-range = { antenna-quantity } is { $value }: give { antenna-wanted }

antenna-bay-count = the stack has { $bays } bays: give 1 to 64
antenna-length =
    { $what ->
        [currents] the list of currents
        [scattering] the splitter’s scattering matrix
        [branches] the list of branches
        [phases] the list of phases
        [azimuths] the list of the bays’ azimuths
        [shares] the list of the bays’ shares
        [bay-phases] the list of the bays’ phases
       *[other] a list
    } has { $given } entries for { $wanted } bays: give one for each bay
antenna-touching = bays { $first } and { $second } are { $distance } apart and touch: move one by at least { $needed }
antenna-inside-pole = bay { $bay } lies { $distance } from the axis of a pole of { $radius } radius: stand it off further
antenna-silent = no bay radiates: give at least one bay a current
antenna-singular =
    the { $what ->
        [joint] joint at a bay
       *[feed] feed network
    } has no solution at { $frequency }: check it for a resonance or an open end

# Masts.
antenna-inside-mast = bay { $bay } comes { $distance } near the axis of a mast that reaches { $mast } out: stand it off further
antenna-unmatchable = bay { $bay } shows { $resistance } and cannot be matched: check its lengths and stand-off
antenna-no-place = none of the { $tried } places can be built; the first fails thus: { $first }
antenna-no-place-grid = an empty grid

# Chains and measurements.
antenna-part = part { $part }: { $why }
antenna-part-cut = part { $part } passes nothing at { $frequency }: check its file
antenna-touchstone-line =
    line { $line }: `{ $text }`: expected { $wanted ->
        [figures] figures separated by blanks (a version 2 file with [keywords] is not read)
        [rising-frequency] a frequency above the one before it
       *[option-line] an option line such as `# MHz S RI R 50` (only S-parameters are read)
    }
antenna-touchstone-short = the text ends after { $found } figures; each frequency of a { $ports }-port takes { $wanted }
antenna-touchstone-outside = { $frequency } lies outside the measurement of { $from } to { $to }
antenna-touchstone-ports = the measurement has { $given } ports where { $wanted } are wanted
