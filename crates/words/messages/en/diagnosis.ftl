# What may be wrong with an antenna, from readings.

readings-faults = the file of readings has { $count ->
    [one] one fault
   *[other] { $count } faults
}
readings-error-above-0 = `{ $given }`: an error above 0 dB was expected
readings-no-power = a power above 0 was expected
readings-power-help = leave the reading out where none was taken
readings-all-comes-back = { $reflected } reflected of { $forward } forward: no more can come back than is sent
readings-swapped-help = are the two readings swapped?
readings-where = a point needs a `place`, or an `azimuth` and a `distance` above 0, and not both
readings-where-help = such as `place = "HILL"`, or `azimuth = "120°"` with `distance = "2 km"`
readings-none = the file holds no reading
readings-none-help = write what was read under `[meters]` and `[[points]]`

diagnosis-unknown-place = The readings name a place { $place }: neither a place of the station ({ $known }) nor one of the ground; give an azimuth and a distance.
diagnosis-no-prediction = No field can be predicted at { $place }: { $why }

fault-healthy = nothing is wrong
fault-upside-down = bay { $bay } hangs upside down
fault-dead-bay = bay { $bay } gets nothing, its joint { $end ->
    [short] shorted
   *[open] open
}
fault-swapped = the cables of bays { $first } and { $second } are swapped
fault-wrong-velocity = the cable of bay { $bay } has another velocity, about { $velocity }, or another length
fault-water-in-feeder = water in the main feeder, some { $loss }
fault-water-in-branch = water in the cable of bay { $bay }, some { $loss }
fault-detuned = bay { $bay } is tuned { $by } MHz too { $side ->
    [low] low
   *[high] high
}

diagnosis-head = { $tag }, antenna { $antenna }, { $power } forward. When all is well { $reflected } comes back at the transmitter.
diagnosis-meters = Read: { $forward } forward, { $reflected } reflected.
diagnosis-not-read = –
diagnosis-point = point
diagnosis-azimuth = azimuth
diagnosis-distance = distance
diagnosis-elevation = elevation
diagnosis-well = when well
diagnosis-spread = spread
diagnosis-read = read
diagnosis-off = off
diagnosis-before = (before)
diagnosis-cause = { $share }  { $what }
diagnosis-one-of = one of these, which the readings cannot part: { $faults }
diagnosis-next = Measure next at { $point }: { $expected }.
diagnosis-next-if = { $field } if { $fault }
diagnosis-measure = Points that tell most, in this order:
diagnosis-as-meant = The file says that bays hang upside down ({ $bays }); healthy here is the antenna as it was meant, with none.
diagnosis-other-power = Fields when well are for { $set } as set, not for the { $design } of the design.
diagnosis-meters-taken = How exact the power meters are is not said: { $error } is taken.
diagnosis-set-taken = How exact the measuring set is is not said: { $error } is taken, the same at every point.
diagnosis-repeat-taken = How well readings at a point repeat is not said: { $error } is taken.
diagnosis-no-meters = Forward and reflected power were not read; they tell dead bays and water best, and cost nothing.
diagnosis-against-prediction = Fields without a reading from before are held to the prediction, whose spread counts as their error: a reading of each point while all is well would tell far more.
diagnosis-climbing = Nobody climbs or opens a joint with the power on: the transmitter is off and locked first, and riggers and a qualified person do the work.
