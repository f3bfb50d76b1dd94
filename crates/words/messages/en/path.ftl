# What `path` says of one radio path. Names in backticks are keys of its file.

path-loss = basic transmission loss
path-free-space = of it free space
path-field-1kw = field strength for 1 kW ERP
path-field = field strength for the ERP given

path-warning = warning: { $what }
path-resampled = the profile has fewer points than the method wants; it was resampled
path-short = the path is shorter than the method’s least, 0.25 km; free space was taken
path-itm-warning =
    { $what ->
        [tx-height] transmitting aerial outside 1 to 1000 m above ground
        [rx-height] receiving aerial outside 1 to 1000 m above ground
        [frequency] frequency outside 40 MHz to 10 GHz
        [over-1000-km] path longer than 1000 km
        [over-2000-km] path longer than 2000 km
        [steep] path short for the difference of the effective heights
        [under-1-km] path shorter than 1 km
        [tx-horizon-angle] the transmitter’s horizon lies more than 0.2 rad from the horizontal
        [rx-horizon-angle] the receiver’s horizon lies more than 0.2 rad from the horizontal
        [tx-horizon-near] the transmitter’s horizon is under a tenth of the smooth-Earth distance
        [rx-horizon-near] the receiver’s horizon is under a tenth of the smooth-Earth distance
        [tx-horizon-far] the transmitter’s horizon is over three times the smooth-Earth distance
        [rx-horizon-far] the receiver’s horizon is over three times the smooth-Earth distance
        [percentage] a percentage so near 0 or 100 that the spread is extrapolated
       *[refractivity] surface refractivity of the path under 250 N-units
    }

path-no-file = not a path file: { $why }
path-unreadable = cannot be read: { $why }
path-other-model = `format` is `{ $format }`, but --model { $model } was asked for
path-unknown-format = `format` is `{ $format }`: expected `p1812-case/1` or `itm-p2p-case/1`, or say --model
path-no-format = no `format` in the file: say --model p1812 or --model itm
path-erp = `erp_kw` is { $erp }: expected a power above 0 kW
path-zone = point { $point }: zone `{ $zone }`: expected 1 (sea), 3 (coast) or 4 (inland)
path-polarisation = `pol` is `{ $pol }`: expected `h` or `v`
path-coast = `dct_km` and `dcr_km`: give both, 0 km or more, or neither
path-place = `{ $end }_lat_deg` { $lat }, `{ $end }_lon_deg` { $lon }: expected a latitude of −90 to 90° and a longitude of −180 to 180°
path-no-key = no `{ $key }` in `profile`
path-no-profile = `profile_file` is `{ $name }`, but there is no { $looked }
path-is = `{ $key }` is { $value }
path-ground = `epsilon_r` is { $permittivity }, `sigma_s_per_m` { $conductivity }
path-over-profile = `n0` is { $n0 } over this profile
path-itm-refused = { $given }; { $why } (code { $code })
