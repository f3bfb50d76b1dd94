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

## What the desk refuses, and what another hand did to the file

desk-nothing-to-undo = There is nothing to take back.
desk-nothing-to-redo = There is nothing to do again.
desk-changed-meanwhile = Another hand changed the file meanwhile; a moment later its text stands here, and the change can be made again.
desk-moot = A newer question was asked meanwhile.
desk-stopped = Stopped. What is shown is a draft; the next change works it out in full.
desk-no-such-paper = There is no paper called { $name }.
desk-paper-not-written = It has not been written yet: write the papers first.
desk-file-by-another = { $file } changed on disk by another hand
desk-file-gone = { $file } is gone from the disk; the next change writes it again.
desk-file-beside-unsaved = { $file } was changed on disk while a change here is not saved. Open the file to take both.
desk-file-faulty = { $file } was changed on disk and has { $count ->
    [one] one fault
   *[other] { $count } faults
}; the answer of the text before it stands.
probe-nothing-radiates = Nothing radiates yet: there is no field to probe.
probe-off-the-map = That place is off the map.
probe-second = By the Irregular Terrain Model instead: { $field }, { $more }.
probe-ask = Point at the map, or type a place's name or a position.

## The programme's way, drawn

opening-link = { $path } of air at { $frequency }, { $margin } over what the receiver needs.
opening-link-lost = { $path } of air at { $frequency }, { $margin } over what the receiver needs; lost for { $minutes } min a year.
opening-link-short = { $path } of air at { $frequency }, and { $margin } short of what the receiver needs.
opening-link-line = The programme goes by { $way ->
    [same-building] cable within one building
    [internet] a public internet connection
    [fibre] fibre
   *[mobile-data] mobile data
}, there { $availability } of the year.
hop-title = { $from } → { $to }
hop-way = { $way ->
    [radio] radio
    [same-building] cable within one building
    [internet] public internet connection
    [fibre] fibre
    [mobile-data] mobile data
   *[unknown] way not stated
}
hop-radio = { $path } by radio at { $frequency }
hop-low-k = ground at k = { $k }
hop-clear = { $clear } clear
hop-blocked = { $over } in the way
hop-clear-wanted = { $wanted } wanted, at { $at }
hop-radiated = Radiated, EIRP
hop-air = Oxygen and water vapour
hop-trees = Trees the path runs through
hop-far-dish = Dish at the far end
hop-far-line = Line at the far end
hop-received = Received
hop-multipath = Several paths through the air
hop-rain = Rain
hop-allowed = May be lost, by the brief

## The studio, drawn

opening-studio = { $speakers ->
    [one] One person talks and hears
   *[other] { $speakers } people talk and hear
}.
opening-studio-headroom = { $speakers ->
    [one] One person talks and hears
   *[other] { $speakers } people talk and hear
}; the console has { $headroom } before it clips.
studio-source = { $kind ->
    [host] Host
    [guest] Guest
    [playout] Playout
    [caller] Caller
    [contributor] Contributor
   *[device] Guest's own device
}
studio-source-of = { $kind ->
    [host] Host
    [guest] Guest
    [playout] Playout
    [caller] Caller
    [contributor] Contributor
   *[device] Guest's own device
} { $number }
studio-lacks = { $what ->
    [microphones] no microphone
    [microphone-inputs] no microphone input left
    [line-inputs] no stereo input left
    [hybrids] no telephone hybrid
   *[clean-feeds] no clean feed left
}
studio-no-console = No console
studio-bus-programme-letter = P
studio-bus-programme = programme
studio-bus-monitor-letter = M
studio-bus-monitor = monitor
studio-bus-clean-letter = C{ $number }
studio-bus-clean = clean feed { $number }
studio-of-needed = { $there } outputs for { $needed } people
studio-to-air = Processing, then link
studio-headphones = Headphones
studio-loudspeakers = Loudspeakers
studio-muted = silent while a microphone is open
studio-not-muted = nothing silences them
studio-listener = { $who } hears
studio-hears-all-but = everything but themselves
studio-hears-own = the programme, their own voice in it
studio-on-air-light = On-air light
studio-light = lit while a microphone is open
studio-no-light = no light, or no control output for it
studio-at-the-desk = At the desk
studio-on-air = On air
studio-rack = Rack of { $units }, { $place }
strip-tiles = { $tiles ->
    [one] one tile
   *[other] { $tiles } tiles
}
figure-is = { $label }: { $value }
change-effect = { $now }, was { $before }
strip-p1812 = Rec. ITU-R P.1812
paper-size = { $size } kB
