# Pattern files, and a measured pattern laid over the computed one.

pattern-line =
    line { $line }: `{ $text }`: expected { $wanted ->
        [cut-before] a PATCUT before the points
        [gain-unit] a gain unit DBI or DBD
        [level] an angle within a turn and a level of 0 dB or less
       *[number] a number with a decimal point
    }
pattern-short = line { $line }: { $wanted } points announced, the text ends after { $found }
pattern-missing =
    missing: { $what ->
        [gain] a gain (MDGAIN)
        [azimuth-cut] an azimuth cut of that plane
        [elevation-cut] an elevation cut of that plane
        [comparable-cut] an azimuth or elevation cut of a plane the antenna has
       *[cut] a cut with points (PATCUT, NUPOIN)
    }
pattern-column = missing: the column { $name }
pattern-grid =
    { $rows } rows for { $bearings } bearings and { $elevations } elevations: give a full grid of equal steps, bearings from 0 to below
    360, elevations from -90 to 90
pattern-csv = not a CSV table: { $why }

pattern-form = { $path }: expected a name that ends in .csv (a table) or .nsma, .adf or .txt (NSMA WG16.99.050)
pattern-refused = { $path }: { $why }
pattern-written = The pattern is in { $path }.
pattern-description = { $antenna } for { $tag }, computed
pattern-laid =
    { $path } laid over the computed pattern, measured less computed, where either is within { $within } of its maximum:
pattern-cut =
    { $plane ->
        [horizontal] Horizontal
       *[vertical] Vertical
    } plane, { $kind ->
        [elevation] up and down at { $at }° of azimuth
       *[azimuth] round at { $at }° of elevation
    }: largest { $largest } at { $angle }°, rms { $rms }, mean { $mean }, { $points } points
