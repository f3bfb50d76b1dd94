# Refusals and cautions of antennas made of wires.

wires-none = the antenna has no wires: give at least one
wires-bad-frequency = frequency { $frequency }: expected a positive number
wires-not-finite =
    wire `{ $wire }`: { $what ->
        [start] its start
        [end] its end
       *[radius] its radius
    } is not a finite number: give metres as plain numbers
wires-zero-length = wire `{ $wire }` has no length: start and end are the same point; move one end or remove the wire
wires-bad-radius = wire `{ $wire }`: radius { $radius }: expected a positive number
wires-too-thick =
    wire `{ $wire }`: radius { $radius } is too thick for its segments of { $segment }, which must be at least 1.5 radii: { $most ->
        [0] make it longer
       *[other] give at most { $most } segments, make it longer
    }, or model the tube as a cage of thin wires
wires-crossing = wires `{ $first }` and `{ $second }` cross or touch at ({ $x }, { $y }, { $z }) m without a junction: end one of them on the other’s axis there to join them, or move them more than { $clear } apart
wires-overlap = wires `{ $first }` and `{ $second }` lie on one another from where they meet: remove one or turn it away
wires-inside = fed wire `{ $wire }` lies inside `{ $around }` (radius { $radius }): move it at least { $clear } from that axis

# A source or a load by its number.
wires-source-or-load =
    { $what ->
        [source] source { $index }
       *[load] load { $index }
    }
wires-no-such-wire = { wires-source-or-load } names wire { $wire }, but the wires are 0 to { $last }: give the index of a wire that exists
wires-off-the-wire = { wires-source-or-load } on wire `{ $wire }`: position { $position } is not on the wire: give a fraction from 0 to 1
wires-bad-value = { wires-source-or-load } on wire `{ $wire }`: { $value } is not a finite number
wires-free-end = { wires-source-or-load } sits at a free end of wire `{ $wire }`, where no current flows: move it along the wire
wires-junction = { wires-source-or-load } sits where wire `{ $wire }` meets { $others } others: move it a little along the wire
wires-same-place = sources { $first } and { $second } sit at the same place of wire `{ $wire }`: keep one of them

wires-below-ground = wire `{ $wire }` reaches z = { $z }: over perfect ground every wire must stay above { $least }, or end at z = 0 to be joined to the ground
wires-along-ground = wire `{ $wire }` lies along the ground, where its image takes its current away: lift its other end above { $least }
wires-short-piece = wire `{ $wire }` has ends, sources, loads or other wires’ ends { $piece } apart, at { $from } and { $to } of its length: put them at one place, or at least { $least } apart (1.5 radii)
wires-too-far = wire `{ $wire }` stands { $wavelengths } wavelengths from the middle of the antenna: at most { $most } can be computed; move it nearer, or compute it alone
wires-too-large = the antenna needs { $unknowns } unknowns, more than { $most }: use fewer or coarser segments
wires-singular = the matrix is singular to working precision: look for wires that nearly coincide
wires-no-port = there is no source: name a wire and a position for at least one

wires-thick = wire `{ $wire }` is { $radius } wavelengths in radius: above 0.020 a single wire is too coarse near a fed one; use a cage
wires-close = wires `{ $first }` and `{ $second }` are { $apart } apart, less than four radii: currents round the tubes are uneven
wires-balance = the power balance is { $balance }: outside 0.99 to 1.01 wires are too thick, too near each other or too coarse

# The file of wires.
wires-file-slip = `{ $key }` is not known here; did you mean `{ $near }`?
wires-file-choice = `{ $key }`: `{ $found }`: expected { $expected }
wires-file-number = `{ $key }`: { $problem }
wires-file-step = a step of { $step }°: expected 0.01 to 360
wires-file-angle =
    an { $what ->
        [azimuth] azimuth
       *[elevation] elevation
    } of { $angle }°: expected −{ $most } to { $most }
wires-file-waves = { $powers } powers and { $phases } phases for { $sources } sources: give one of each
wires-file-z0 = z0_ohm { $ohm }: expected a positive number
wires-file-lines = { $lines } lines for { $sources } sources: give one each
wires-file-line = a line of { $ohm } ohm, { $length } m: expected positive numbers
wires-file-no-power = the sources deliver no power: give at least one some volts
wires-file-power = a power of { $power } W: expected 0 or more
wires-file-all-zero = all its powers are 0: give one source some
wires-file-no-current = source { $source } carries no current, so it has no impedance: give it some volts or leave it out
wires-file-unbalanced = the sources’ power and what is radiated differ { $balance } times, so this antenna cannot be computed: it is too small against the wavelength, or its wires are too thick or too near each other
wires-file-beyond = `{ $key }` comes out beyond every number: this antenna cannot be computed

# What `wires` prints.
wires-size = { $segments } segments, { $unknowns } unknowns
wires-source = source { $source }: { $impedance }
wires-gain = maximum gain { $gain } at azimuth { $azimuth }°, elevation { $elevation }°
wires-power = power balance { $balance }
wires-caution = caution: { $what }
