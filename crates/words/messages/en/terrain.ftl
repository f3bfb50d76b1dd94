# Refusals of the ground: tiles, rasters of people, tables of places and land cover. Each follows the file's name.

terrain-position-not-finite = latitude `{ $lat }`, longitude `{ $lon }`: expected two finite numbers of degrees
terrain-position-latitude = latitude `{ $lat }`°: expected −90 to 90; latitude comes first, are the two swapped?
terrain-position-longitude = longitude `{ $lon }`°: expected −180 to 180 (up to 360 is wrapped)

# Named places.
terrain-cell = { $line }:{ $column }  { $what }
terrain-places-row = expected a row of CSV in UTF-8: { $why }
terrain-places-column-twice = column `{ $column }` stands twice
terrain-places-column-unknown = unknown column `{ $column }`: expected { $columns }
terrain-places-column-missing = no column `{ $column }`: expected { $columns }
terrain-places-nameless = a place without a name
terrain-places-number =
    { $column } `{ $text }`: expected { $column ->
        [lat] degrees such as `43.48`
        [lon] degrees such as `-35.49`
       *[people] a number such as `1480`
    }
terrain-places-people = people `{ $people }`: expected zero or more
terrain-places-surroundings = surroundings `{ $text }`: expected rural, urban or large city

# Land cover.
terrain-cover-row = land cover table, line { $line }: { $what }
terrain-cover-twice = class { $class } stands twice, first as { $name }
terrain-cover-unknown = class { $class } is not in the table
terrain-cover-column = expected a column `{ $column }`
terrain-cover-code = code `{ $text }`: expected a whole number from 0 to 255
terrain-cover-metres = clutter_m `{ $text }`: expected metres such as `15`
terrain-cover-height = clutter_m `{ $height }`: expected 0 to 100 m
terrain-cover-mark = mark `{ $text }`: expected V, C, M, P or I
terrain-cover-category = category `{ $text }`: expected water, open, suburban, urban, trees or dense urban

# Tiles.
terrain-hgt-name = `{ $name }`: expected a name such as `N46E008.hgt` or `S46W066.hgt.gz` (the tile’s south-west corner)
terrain-hgt-size = { $name }  { $found } bytes; a 1″ tile has { $one }, a 3″ tile { $three }: copy the file again
terrain-hgt-unreadable = { $name }  { $why }
terrain-gzip-damaged = the gzip stream is damaged ({ $why }): copy the file again
terrain-unpacked-size = { $found } bytes when unpacked, expected { $expected }: copy the file again
terrain-unpacked-beyond = more than { $most } bytes when unpacked
terrain-rows-unreadable = rows { $first } to { $last } cannot be read ({ $why }): copy the file again

terrain-crs =
    { $crs ->
        [geographic] latitude and longitude (EPSG 4326)
        [utm-north] UTM zone { $zone } north
        [utm-south] UTM zone { $zone } south
        [web-mercator] web Mercator (EPSG 3857)
       *[mollweide] Mollweide (ESRI 54009)
    }
terrain-grid-size = { $width } × { $height } samples: expected 1 to { $most } along each side
terrain-grid-step = sample spacing { $x } × { $y }: expected two positive numbers (rows from north to south)
terrain-grid-beyond-pole = the grid spans latitudes { $south }° to { $north }°, more than the Earth has: are latitude and longitude swapped?
terrain-grid-too-wide = the grid spans longitudes { $west }° to { $east }°: expected at most 360° between −360° and 360°
terrain-grid-corner = corner at x { $x }, y { $y }: not a place in { $crs }

terrain-block-size = block { $block } holds { $found } samples, expected { $expected }: the file’s header and data disagree
terrain-block-undecodable = block { $block } cannot be decoded ({ $why }): copy the file again
terrain-blocks-too-many = { $blocks } blocks: expected at most { $most }; rewrite the file with larger tiles or strips
terrain-block-too-large = blocks of { $samples } samples: expected at most { $most }; rewrite the file in smaller tiles or strips

terrain-tiff-unreadable = not a readable TIFF: { $why }
terrain-tiff-empty-blocks = blocks of no size
terrain-tiff-too-few-blocks = { $stored } strips or tiles for { $blocks } places: the header is damaged
terrain-tiff-samples = { $found }: expected one band of 8, 16 or 32-bit whole numbers or 32 or 64-bit floats
terrain-tiff-bands = { $bands } bands
terrain-tiff-format = { $bits }-bit samples of format { $format }
terrain-tiff-compression = compression { $found }: expected none, LZW or DEFLATE; rewrite the file with one of them
terrain-tiff-no-place =
    no georeference ({ $missing ->
        [keys] no key directory, tag 34735
        [tie-points] tie points that are not one corner, tag 33922
        [matrix] a short matrix, tag 34264
       *[corner] no corner, tags 33550 and 33922 or 34264
    }): this is a picture, not a map
terrain-tiff-turned = the raster is turned or mirrored: expected rows from north to south; warp the file to its axes
terrain-tiff-crs =
    coordinate system { $known ->
        [nothing] without a code or a name
        [name] `{ $name }`
        [code] EPSG { $code }
       *[both] `{ $name }` (EPSG { $code })
    }: expected EPSG 4326 or 4258, UTM on WGS 84 or ETRS89, web Mercator 3857 or Mollweide 54009; reproject the file
terrain-tiff-unit =
    { $what ->
        [heights] heights
       *[coordinates] coordinates
    } in unit { $code } (EPSG): expected { $expected ->
        [degrees] degrees (9102)
       *[metres] metres (9001)
    }
terrain-tiff-scaled = the samples want a scale or an offset (tag 42112): write the file with plain values

# People.
terrain-people-length = { $found } counts for { $expected } cells
terrain-people-count = { $count } people in column { $column }, row { $row }: expected zero or more; is the raster’s no-data value declared?
terrain-people-too-many = { $cells } cells of people: expected at most { $most }; take a smaller radius or a coarser raster
terrain-people-elsewhere = the raster of people does not reach the area asked for

# The ground along a path.
terrain-ground-tile = { $tile }: { $why }
terrain-ground-absurd-height = height { $height } at { $lat }°, { $lon }°: expected { $low } to { $high }; is the tile in metres, is its void value declared?
terrain-ground-missing = no height tile at { $lat }°, { $lon }°: add the tile, or treat missing ground as sea
terrain-ground-all-void = no height along the whole path, every sample is void: add a filled tile
terrain-ground-no-length = a path of no length: the two ends are at the same position
terrain-ground-no-path = path of { $length } at { $azimuth }° in steps of { $step }: expected a finite azimuth, a positive step, and at most { $most } samples
