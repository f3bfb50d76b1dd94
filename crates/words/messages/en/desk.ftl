# Words of the desk behind the page.
handle-power = transmitter power
handle-limit = the licence is used in full at { $power }
handle-bays = bays
handle-height = antenna centre above ground
rung-free-space = Free space
rung-obstacles = Ground and trees in the way
rung-curved-earth = Curve of the earth
rung-other-ways = Other ways of the wave
rung-height = Down to the listener
rung-walls = Through the walls
rung-field = Field
class-none = nobody
class-open-mono = open country, mono
class-open-stereo = open country, stereo
class-town-mono = town, mono
class-town-stereo = town, stereo
class-city-mono = large city, mono
class-city-stereo = large city, stereo
strip-method = Method
strip-step = Study step
strip-ground = Ground
strip-generated = generated, invented
ladder-joints = Connectors together
opening-antenna = { $power } in, { $erp } out, within the licence in every direction by { $margin } or more.
opening-antenna-over = { $power } in, { $erp } out: { $margin } over the licence in its strictest direction.
opening-sites = The sites draw { $drawn } together; the public stays { $public } from the bays.
opening-money = { $capital } to build, then { $yearly } a year: { $over } over the years counted.
opening-coverage = { $people } hear it in stereo from a roof aerial.
opening-coverage-short = { $place } gets { $field }, { $margin } short of what was asked.
opening-coverage-in-hand = The place worst off, { $place }, gets { $field } with { $margin } in hand.
horizon-in-hand = { $margin } in hand at { $at }
horizon-over = { $margin } over at { $at }
offer-chosen = The cheapest that keeps the brief
offer-chosen-nearly = The cheapest that keeps what can be kept
offer-beside = { $axis ->
    [transmitter] Transmitter
    [feeder] Feeder
    [bays] Bays
   *[height] Height
}, one step { $more ->
    [yes] more
   *[no] less
}
offers-working = Working out offers
offers-stopped = Stopped: nothing was worked out.
offers-old = The station was changed since these were worked out; they fit the one before. Work them out anew, or undo.
offers-gone = That offer is no longer of this station: work the offers out anew.
offers-taken = Offer { $letter } taken: { $title }
more-people = { $people } people
more-mends = mends { $code }
progress-left = { $seconds } s left
working-field = Computing the field

## What a change did

change-set = { $what }: { $to }, was { $from }
change-to = { $what }: { $to }
change-first = { $what }: { $to }, was not stated
change-cleared = { $what }: no longer stated, was { $from }
change-added = { $what } added
change-added-of = { $what } added: { $thing }
change-removed = { $what } removed
change-removed-of = { $what } removed: { $thing }
change-made = { $what } changed
change-more = { $count ->
    [one] and one change more
   *[other] and { $count } changes more
}
change-key = { $key }, { $of }
change-key-of = { $key } of { $of }
change-text = Text of { $file } edited

## Names of what a change may touch and nobody assumes; more in names.ftl

name-items = { $of }
name-items-shelf = { $of }
name-items-count = Number of { $of }
name-items-place = Place of { $of }
name-items-status = Fate of { $of }
name-cables = Cable { $of }
name-cables-shelf = Cable { $of }
name-cables-count = Number of cables { $of }
name-cables-from = Near end of cable { $of }
name-cables-to = Far end of cable { $of }
name-antennas = Antenna { $of }
name-antennas-splitter = Splitter of { $of }
name-antennas-polarisation = Polarisation of { $of }
name-antennas-inverted-bays = Bays upside down on { $of }
name-antennas-site = Site of { $of }
name-emissions = Emission { $of }
name-emissions-transmitter = Transmitter of { $of }
name-emissions-antenna = Antenna of { $of }
name-hops = Hop { $of }
name-hops-dish = Dish of hop { $of }
name-hops-equipment = Equipment of hop { $of }
name-sites = Site { $of }
name-sites-position = Position of { $of }
name-sites-mast = Mast at { $of }
name-sites-supply-three-phase = Three phases at { $of }
name-places = Place { $of }
name-places-position = Position of { $of }
name-rooms = Room { $of }

## The antenna sheet

aerial-full = Solved as thin wires beside the mast, by the method of moments.
aerial-draft = A draft by the array model; the wires follow with the whole answer.
aerial-apart = The draft by the array model was off by up to { $apart }, within 10 dB of the maximum.
aerial-mean-height = Height over the mean terrain { $height }, 3 to 16 km on eight bearings (47 CFR 73.313).
plane-vertical = vertical plane
plane-horizontal = horizontal plane
pattern-weakest = more than { $below } dB below
pattern-within = within { $below } dB of the maximum
pattern-towards = greatest at { $azimuth }, { $depression } below the horizon
pattern-place = { $azimuth }, { $depression } down: { $erp }
current-weakest = under { $share } %
current-over = over { $share } % of the greatest
current-most-at = The greatest is { $amps } peak, with { $power } into the splitter.
harness-longer = { $more } mm
