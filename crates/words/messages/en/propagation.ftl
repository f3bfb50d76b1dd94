# Refusals of the methods of propagation. `method` and `quantity` are names of a clause and of an argument, nobody's to translate.

propagation-out-of-range = `{ $quantity }` is { $value }; { $method } holds from { $low } to { $high }

propagation-p1812-range =
    { $what ->
        [frequency] frequency
        [time] time percentage
        [locations] location percentage
        [spread] location spread
        [lapse-rate] lapse rate of refractivity
        [refractivity] surface refractivity
        [tx-height] transmitting antenna height above ground
        [rx-height] receiving antenna height above ground
       *[point] receiver’s point
    } `{ $value }`: the method wants { $least } to { $most }
propagation-setups = { $setups } setup(s) for { $lists } list(s) of losses: give a list for each setup, and setups of one antenna height and lapse rate
propagation-receiver-heights = { $heights } receiver heights for a radial of { $points } points: give one for each point

propagation-profile-lengths = { $distances } distances, { $heights } heights, { $clutter } clutter heights and { $zones } zones: give one of each for every point
propagation-profile-too-few = { $points } profile point(s): a path has at least two, transmitter first and receiver last
propagation-profile-start = the first distance is `{ $distance }`: the transmitter stands at 0 km
propagation-profile-not-rising = point { $point }: distance `{ $distance }` after `{ $before }`: distances must rise strictly
propagation-profile-too-long = the path is `{ $distance }` long: the method ends at 3,000 km
propagation-profile-height = point { $point }: ground height `{ $height }`: expected −500 to 9,000 m above sea level
propagation-profile-clutter = point { $point }: clutter height `{ $height }`: expected 0 to 200 m above ground

propagation-itm-too-few = { $points } heights were given; a profile needs at least 2
propagation-itm-spacing = a spacing of { $spacing } was given; it must be above 0
propagation-itm-height = height { $point } is { $height }; heights lie between −500 and 9,000 m
propagation-itm-refused =
    { $why ->
        [tx-height] transmitting aerial: expected 0.5 to 3,000 m above ground
        [rx-height] receiving aerial: expected 0.5 to 3,000 m above ground
        [climate] climate: expected a code from 1 to 7
        [time] share of time: expected more than 0 and less than 100 %
        [places] share of places: expected more than 0 and less than 100 %
        [situations] share of situations: expected more than 0 and less than 100 %
        [refractivity] sea-level refractivity: expected 250 to 400 N-units
        [frequency] frequency: expected 20 to 20,000 MHz
        [polarisation] polarisation: expected horizontal or vertical
        [permittivity] permittivity of the ground: expected 1 or more
        [conductivity] conductivity of the ground: expected more than 0 S/m
        [ground-impedance] ground constants: the surface impedance they give is reactive
        [variability] mode of variability: expected 0 to 3, plus 10 and plus 20 at choice
        [earth-radius] effective Earth radius: the air and the heights give one outside 4,000 to 13,333 km
        [surface-refractivity-low] surface refractivity of the path: under 150 N-units, the ground is too high
       *[surface-refractivity-high] surface refractivity of the path: over 400 N-units, the ground is too low
    }

propagation-multipath-frequency = { $frequency } is under the method’s least frequency of { $least } at this length
propagation-multipath-occurrence = a multipath occurrence factor of { $occurrence } is beyond the method

propagation-hop-too-few = a profile needs at least three points, and as many heights as distances
propagation-hop-not-rising = distance { $point } of the profile is { $distance }; distances start at 0 and rise strictly
propagation-hop-height = height { $point } of the profile is not finite
propagation-hop-bad-value =
    `{ $quantity }` is { $value }; expected { $expected ->
        [above-zero] a number above 0
        [under-a-right-angle] an angle from 0° to less than 90°
       *[finite] a finite number
    }
propagation-hop-rain-missing = at { $frequency } rain cannot be left out: give the rain rate exceeded 0.01 % of the year
