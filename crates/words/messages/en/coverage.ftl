# Refusals of a coverage.

coverage-cancelled = cancelled
coverage-study =
    { $what ->
        [step] study step `{ $value }` m: expected 1 to 10,000 m
        [radius] radius `{ $value }` km: expected 0.1 to 300 km and at least two steps
        [azimuths] number of azimuths `{ $value }`: expected 1 to 1,000,000
        [receivers] receivers `{ $value }`: expected at most 120 million: a larger step or a smaller radius
        [receiving-height] receiving height `{ $value }` m above ground: expected 1 to 3,000 m
        [location-percentage] location percentage of the loss field `{ $value }`: expected 50 %: other percentages follow from the spread afterwards
        [square] side of the square for the location spread `{ $value }` m: expected 0 to 5,000 m
        [location-spread] location spread `{ $value }` dB: expected 0 to 30 dB
        [model-error] model error `{ $value }` dB: expected 0 to 30 dB
        [wanted-field] wanted field `{ $value }` dBµV/m: expected −100 to 200 dBµV/m
        [interference-time] percentage of time of an interfering station’s field `{ $value }`: expected 50 % for `half`, 1 % for `hundredth`
        [place-distance] distance of the place `{ $value }` km: expected at most 3,000 km
        [path-length] length of the path `{ $value }` km: expected 0.01 to 3,000 km
        [losses-together] losses computed together `{ $value }`: expected at most 400 million: fewer studies at once
        [places-percentage] percentage of places `{ $value }`: expected 0.01 to 99.99 %
        [cell-side] side of a cell `{ $value }` m: expected 1 to 100,000 m
        [cell-grid] side of a cell `{ $value }` m: expected cells that make a grid round the site
        [cells] cells of the raster `{ $value }`: expected at most 100 million: larger cells
        [latitude] latitude of the site `{ $value }`°: expected a radius that stays 0.5° away from the poles
        [mast-places] places to be served `{ $value }`: expected 1 to 20
        [mast-time] percentage of time `{ $value }`: expected 50 %: only there both directions lose the same
        [mast-erp] ERP `{ $value }` kW: expected 0.000001 to 10,000 kW
        [mast-apart] distance between hills `{ $value }` km: expected 0 to 1,000 km
       *[mast-people] people of a place `{ $value }`: expected 0 to 1,000,000,000
    }
coverage-itm = irregular terrain model: { $why }
coverage-too-many-rows = the land-cover table has more than { $most } different kinds of surroundings: merge classes
coverage-other-height = the field was predicted at the true height of { $predicted }, and { $wanted } is wanted: compute it at that height, or by cover

# What two studies of one ground differ in.
coverage-differs =
    { $what ->
        [antenna-height] antenna height
        [lapse-rate] lapse rate ΔN
        [receiving-rule] receiving rule
        [walker] walker
        [site] site
        [radius] radius
        [step] study step
        [azimuths] azimuths
       *[method] method (P.1812)
    }
coverage-not-together = studies computed together differ in { coverage-differs }: only frequency, polarisation, time percentage and N0 may differ
coverage-other-survey = the survey of the ground has another { coverage-differs }: survey the ground again, or compute without one
coverage-survey-too-large = a survey of this ground takes { $megabytes } MB, more than { $most } MB: a larger step, a smaller radius, or compute without one
coverage-other-lattice = the two fields have different receivers: compute both with one site, radius, step and azimuths
coverage-at-the-site = the place lies at the site itself ({ $distance } away): no path leads there
coverage-missing-ground = ground is missing from { $from } of the path: add the tile, or treat missing ground as sea

coverage-table =
    { $table ->
        [wanted-fields] wanted fields
       *[protection-ratios] protection ratios
    }, line { $line }: { $expected }
coverage-table-wants =
    { $what ->
        [surroundings] surroundings `rural`, `urban` or `large city`
        [mode] mode `mono` or `stereo`
        [field] a field in dBµV/m
        [number] a number
        [deviation] a deviation of 75 or 50 kHz
       *[mark] a mark
    }

coverage-contour = contour of { $level }: { $why }
coverage-contour-level = expected −300 to 300 dB
coverage-contour-none = no outline came back
