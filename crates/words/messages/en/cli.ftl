# What the command line says.

ask-head = { $erp } from { $mast } above ground, { $ground }:
ask-band = { $service ->
    [stereo] stereo on a roof aerial
    [mono] mono on a roof aerial
   *[car] mono in the car
} { $likely }, between { $low } and { $high }{ $rim }
ask-rim = {" "}(the furthest lies beyond what was computed)
ask-power = { $erp } comes from { $power } at the transmitter: line and connectors { $line }, { $bays ->
    [one] one bay
   *[other] { $bays } bays
} { $gain } over a dipole. With { $other ->
    [one] one bay
   *[other] { $other } bays
} it would be { $other-erp }.
ask-matters = What changes it most:
ask-mast-up = a mast twice as high: stereo to { $distance }
ask-erp-down = ± { $db } of power: stereo between { $low } and { $high }
ask-other-bays = { $bays ->
    [one] one bay
   *[other] { $bays } bays
} in place of { $now } ({ $db }): stereo to { $distance }
ask-prediction = the prediction itself, ± { $db }: stereo between { $low } and { $high }
ask-spread = In any one place it depends on where people live and what stands round them; one standard deviation is
ask-spread-at = { $listener ->
    [open] ± { $sum } at a roof aerial in open country: from place to place { $location } (none at ten metres above open ground, P.1812 § 4.7), error of the prediction { $model }
    [houses] ± { $sum } at a roof aerial among houses: from place to place { $location }, error of the prediction { $model }
   *[indoors] ± { $sum } indoors: from place to place { $location }, from building to building { $building } (P.2109), error of the prediction { $model }
}
ask-direction = the direction: one tenth of the horizon hears less than { $low }, one tenth more than { $high }
ask-questions = To know more:
ask-q-site = 1. Where exactly does the mast stand, and what is the height of its ground?
ask-q-places = 2. Which places must hear it, and indoors, in the car or on a roof?
ask-q-licence = 3. Is that power at the transmitter or radiated, and what does the licence allow, in which directions?
ask-site = Seen from { $place }.
ask-tiles = the tiles' ground
ask-generated = invented { $ground ->
    [island] island
    [rolling] rolling plain
    [alpine] alpine valley
   *[coast] hill coast
}
ask-no-power = The power must be above 0 W.
ask-no-mast = --mast { $given }: a height from { $least } to { $most } above ground is wanted.
ask-no-ground = The ground has no elevation at { $at }.
ask-outside = { $at } lies outside the invented ground; give --tiles, or leave --at away for a mast beside its largest place.
ask-no-tile = No tile in { $folder } holds { $at }.
ask-no-site = Say where the mast stands, such as --at "46.5 N 8.1 E".
ask-refused = { $reason }

cli-no-language = “{ $given }” is no language the program has: it has { $known }.
assess-invented = { $name } (invented)
assess-asked = asked
assess-short = short
assess-in-hand = in hand { $hand }
serve-short = short: { $point }, { $answered } ({ $hand })
serve-papers = papers: { $folder }
serve-no-papers = the papers could not be written: { $why }
serve-port = port { $port }: { $why }; name another with --port
serve-page = page: { $address }  (Ctrl-C ends it)
