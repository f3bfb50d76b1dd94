# Words of the page. Every code begins with `page-`. Arguments arrive as finished text, or as counts that choose a plural.

## The chain and the title block

page-air-chain = Air chain
page-stands-on = stands on
page-open-chain = Open the chain
page-not-known = not known
page-margin-spoken = { $margin } in hand
page-title-block = Title block
page-station = Station
page-sheet-of = Sheet { $number } of { $of }
page-revision = Revision { $number }
page-not-dated = not dated
page-file = File
page-file-saved = Saved
page-file-writing = Writing
page-file-not-saved = Not saved
page-file-changed-outside = Changed on disk
page-last-change = Last change
page-no-change = none in this sitting
page-draft = draft, whole answer follows
page-not-done = Not done
page-findings = Findings
page-counts-spoken = { $errors ->
    [one] { $errors } error
   *[other] { $errors } errors
}, { $warnings ->
    [one] { $warnings } warning or caution
   *[other] { $warnings } warnings and cautions
}, { $notes ->
    [one] { $notes } note
   *[other] { $notes } notes
}: open the findings
page-errors = { $count ->
    [one] { $count } error
   *[other] { $count } errors
}
page-warnings = { $count ->
    [one] { $count } warning
   *[other] { $count } warnings
}
page-notes = { $count ->
    [one] { $count } note
   *[other] { $count } notes
}
page-none = none
page-signatures = Drawn, checked, approved
page-not-signed = not yet signed

## Sheets

page-sheet-glance = Station at a glance
page-sheet-brief = Brief
page-sheet-file = Station file
page-sheet-offers = Offers
page-sheet-studio = Studio
page-sheet-link = Link
page-sheet-antenna = Antenna
page-sheet-coverage = Coverage
page-sheet-findings = Findings
page-sheet-sites = Sites
page-sheet-money = Money
page-sheet-papers = Papers
page-sheet-acceptance = Acceptance

page-opening-margin = { $name }: { $level }, { $margin } in hand.
page-opening-short = { $name }: { $level }, { $margin } short.
page-opening-level = { $name }: { $level }.
page-opening-brief = What was asked, what answers it, and what had to be assumed.
page-opening-file = { $file }, the whole station in one file.
page-opening-offers = What this money buys, and what a little more would buy.
page-opening-studio = { $count ->
    [0] The studio, with nothing found wrong.
    [one] The studio, with one finding.
   *[other] The studio, with { $count } findings.
}
page-opening-link = { $count ->
    [0] The link, with nothing found wrong.
    [one] The link, with one finding.
   *[other] The link, with { $count } findings.
}
page-opening-antenna = { $count ->
    [0] From transmitter to antenna, with nothing found wrong.
    [one] From transmitter to antenna, with one finding.
   *[other] From transmitter to antenna, with { $count } findings.
}
page-opening-coverage = { $count ->
    [0] Where it is heard, with nothing found wrong.
    [one] Where it is heard, with one finding.
   *[other] Where it is heard, with { $count } findings.
}
page-opening-findings = { $count ->
    [0] Nothing was found wrong.
    [one] One thing to know before a signature.
   *[other] { $count } things to know before a signature, the worst first.
}
page-opening-sites = { $count ->
    [0] What the station stands on, with nothing found wrong.
    [one] What the station stands on, with one finding.
   *[other] What the station stands on, with { $count } findings.
}
page-opening-money = What it costs, line by line.
page-opening-papers = The papers to hand over, and how each stands.
page-opening-acceptance = What an instrument reads on the day, and what is accepted. Nothing is measured yet.

## Acts and state

page-skip = Skip to the sentence
page-reading = Reading the station
page-no-server = The program behind this page does not answer. What is shown still stands; start it again on the same port, and the page goes on.
page-undo = Undo
page-redo = Redo
page-find = Find
page-keys = Keys
page-dark = Dark
page-light = Light
page-close = Close
page-cancel = Cancel
page-history = Changes of this sitting
page-taken-back = taken back
page-find-title = Find a figure or an item
page-find-none = No figure is called that.

## Keys

page-key-glance = station at a glance
page-key-stages = the nine stages of the chain
page-key-sheets = brief, offers, sites, money, papers, acceptance
page-key-more-sheets = station file, findings
page-key-beside = sheet before, sheet after
page-key-findings = next finding, finding before
page-key-how = how the nearest figure came about
page-key-find = find a figure
page-key-pin = pin the probe
page-key-undo = undo; with Shift, redo
page-key-close = close what was opened last
page-key-arrows = walk the chain, move a slider, move the probe

## Figures and how

page-figure = Figure
page-figures = Figures
page-all-figures = All figures of the sheet
page-more-figures = All { $count } figures
page-value = Value
page-unit = Unit
page-in-hand = In hand
page-how = how
page-how-is = How: { $what }
page-how-title = How: { $what }
page-take-as-text = take as text
page-taken = taken
page-as-a-table = As a table
page-curve-spoken = Curve of { $of } along { $along }. Left and right move the crosshair; the table below holds the same.

## Findings

page-severity-error = Error
page-severity-warning = Warning
page-severity-caution = Caution
page-severity-note = Note
page-group-error = Not to be built like this
page-group-warning = Somebody will regret it
page-group-caution = People can be hurt
page-group-note = Worth knowing
page-what-is-wrong = What is wrong
page-what-to-know = What to know
page-findings-here = Findings here
page-no-findings = Nothing was found wrong here.
page-finding-count = { $count ->
    [one] { $count } finding
   *[other] { $count } findings
}
page-more-findings = { $count ->
    [one] One more finding
   *[other] { $count } more findings
}

## Glance, brief, money

page-asked-and-answered = Asked and answered
page-point = Point of the brief
page-asked = Asked
page-answered = Answered
page-who-hears-it = Who hears it
page-open-map = open the map
page-what-it-costs = What it costs
page-open-prices = every price
page-what-more-buys = What a little more would buy
page-questions = Questions to send back
page-open-in-file = open in the file
page-assumed = Assumed
page-assumed-aside = ranked by what each is worth
page-more-assumed = All { $count } assumptions, also those that move nothing
page-nothing-assumed = Nothing had to be assumed.
page-what = What
page-taken-value = Taken
page-worth-field = Field
page-worth-people = People
page-worth-money = Money
page-price-table = Prices by stage of the chain
page-quantity = Quantity
page-each = Each
page-line = Line
page-no-price = no price
page-excluded = What is not in the price
page-what-stands-here = What is bought for it
page-no-offers = No other stations have been worked out for this brief yet. Working them out looks through transmitters, feeders, bays and heights of the shelf, and takes some seconds.

## Offers

page-work-out = Work out offers
page-work-out-anew = Work them out anew
page-working = Working out offers
page-stop = Stop the work
page-cost-against-people = Cost against people reached
page-every-letter = every letter is a whole station
page-offers-spoken = Price to build against people with stereo: { $offers }
page-offers-people = people with stereo on the roof
page-offers-cost = { $unit } to build, freight and duty in
page-budget-line = Budget { $budget }
page-chosen-design = The cheapest design
page-wishes = Wishes
page-side-by-side = Side by side
page-side-by-side-aside = each one step away from the cheapest, all else held
page-station-now = the station now
page-letter = Letter
page-design = Design
page-to-build = To build
page-against-chosen = against the cheapest
page-people-against = people against the cheapest
page-with-running = with running costs
page-erp = ERP
page-least-in-hand = Least in hand
page-verdict = What it means
page-in-force = This is the station now.
page-choose-offer = Choose { $letter }
page-presumed = { $count ->
    [one] one thing was left open
   *[other] { $count } things were left open
}
page-more-aside = remedies that cost something, the cheapest first

## Coverage

page-heard = heard
page-heard-roof = 10 m, on the roof
page-heard-indoors = indoors
page-heard-car = in a car
page-places = places
page-share = { $share } %
page-sea = sea
page-sea-paper = left out
page-sea-painted = painted
page-probe = Probe
page-probe-at = probe at
page-probe-example = a place, or 52.1 −4.2
page-map-label = Map of the field
page-map-small = Small map of the field. { $says }
page-map-keys = Arrows move the probe, with Shift further; plus and minus come nearer and go further; drag moves the map.
page-map-coming = The field is being computed; the map follows.
page-nearer = Nearer
page-further = Further
page-north = N
page-east = E
page-south = S
page-west = W
page-ruler = The listener's ruler
page-ruler-spoken = Classes of field with the people in each: { $classes }
page-ruler-note = Lines on the map as on the ruler: thin for open country, heavier for town and large city; dashed where mono is enough. Rec. ITU-R BS.412-9, Table 1.
page-people = people
page-pin = Pin this place
page-unpin = Unpin
page-where-field-goes = Where the field goes
page-profile-spoken = Profile of the path, { $title }: { $peak }
page-peak-title = Ground, { $where } out
page-peak-note = above the ray, and its loss: { $note }
page-far-end = { $name }, { $height }
page-wanted-against = { $hand } in hand against { $wanted }
page-nothing-between = nothing stands between
page-places-table = Places
page-place = Place
page-paint = paint
page-paint-field = field
page-paint-hills = where to stand
page-hills = Where should the mast stand?
page-hills-erp = radiated power
page-hills-mast = antenna above ground
page-hills-as-licensed = as licensed
page-hills-as-now = as now
page-hills-search = Look for hills
page-hill = Hill
page-ground = Ground
page-hill-act = Act
page-hill-take = Move the mast here
page-shares = People a mast there would reach
page-share-from = { $share } % and more
page-share-under = under { $share } %
page-shares-note = Share of the people in the places the brief wants, each place counted with the probability that it is served.

## Antenna

page-mast = Mast, to scale
page-no-mast = No mast is written down yet, so nothing can be drawn. Give the site a mast in the station file.
page-public-outside = Public stay outside { $distance }
page-set-to = set to { $power }
page-centre-at = centre { $height }
page-mast-spoken = Mast { $height }, { $bays ->
    [one] one bay
   *[other] { $bays } bays
} centred at { $centre }. { $outside }
page-horizon = Round the horizon
page-horizon-aside = { $unit }; hatched: not licensed
page-horizon-spoken = ERP by azimuth on rings of { $rings }. Tightest: { $tightest }
page-vertical-cut = Vertical pattern
page-vertical-cut-aside = { $unit }, towards the maximum; places in their own direction
page-vertical-cut-spoken = Gain by depression in the strongest direction. { $places }
page-below-horizon = below the horizon
page-unrolled = The whole pattern
page-unrolled-axes = azimuth; upright, degrees below the horizon
page-unrolled-spoken = Gain by azimuth and depression, with the places on it: { $places }
page-how-solved = How it was solved
page-currents = Currents along the wires
page-currents-aside = seen from beside the bays
page-currents-spoken = Drawing of the wires with their currents. { $says }
page-bay-at = bay { $bay }, { $height }
page-bays-table = Bays
page-from-the-top = numbered from the top
page-bay = Bay
page-height = Height
page-faces = Faces
page-power = Power
page-peak-voltage = Peak voltage
page-phase = Phase
page-vswr = VSWR
page-upside-down = upside down
page-harness = Cables to cut
page-way-to-bay = Way to bay
page-way-bay = { $way } to { $bay }
page-cut = Cut to
page-longer = Longer by
page-electrical = Electrical
page-share-of-power = Share
page-azimuth = Azimuth
page-mask-in-hand = In hand under the licence's mask
page-annex = ERP by azimuth
page-annex-aside = strongest of all depressions; effective height Rec. ITU-R P.1546, 3 to 15 km
page-erp-vertical = Vertical
page-erp-horizontal = Horizontal
page-counted = As counted
page-licence = Licence
page-effective-height = Effective height
page-stand-off = stand-off { $distance }
page-tx-to-erp = From transmitter to ERP
page-step = Step
page-type-value = { $what }, typed with its unit
page-old-value-stands = The old value, { $value }, still counts.

## Link and studio

page-in-reserve = in reserve: { $way }
page-fade-terms = From dish to receiver
page-threshold-against = { $hand } fade margin over { $wanted }
page-a-year = Lost in a year
page-signal-flow = Signal flow
page-flow-spoken = Signal flow. Sources: { $sources }. Who listens: { $outputs }.
page-sources = Sources
page-who-listens = Who listens
page-console = Console
page-symbols = Symbols
page-symbols-after = IEC 60617 where generic
page-lines = Lines
page-flow-lines = double: balanced; struck: digital; dashed: logic. Dot: routed; ring: left out on purpose
page-buses = Buses
page-on-input = input { $input }
page-no-input = no input
page-who-hears-whom = Who hears whom
page-hears-yes = hears
page-hears-silent = silent while a microphone is open
page-hears-not-own = left out: their own voice
page-hears-own = their own voice comes back
page-hears-no = nothing: it has no input

## Papers and file

page-paper = Paper
page-holds = Holds
page-format = Format
page-state = State
page-size = Size
page-paper-ready = Ready
page-paper-old = Old
page-paper-missing = Not written
page-write-papers = Write the papers
page-no-papers = No papers are known for this station.
page-papers-coming = Looking through the papers
page-file-text = Text of the station file
page-save-file = Save the file
page-take-back = Take back what was typed
page-file-taken = Saved. The station was assessed anew.
page-faults = Faults
page-fault-count = { $count ->
    [one] { $count } fault, not saved
   *[other] { $count } faults, not saved
}
page-fault-line = Line { $line }, column { $column }:
page-not-saved-yet = Changed here, not saved yet. Ctrl and S save it.
page-file-stands = The file stands as shown.
page-file-changed-title = Changed on disk meanwhile
page-take-theirs = Take theirs
page-keep-mine = Write mine over it
page-their-text = Their text
page-promised-value = Promised
page-measured = Measured
page-what-is-read = What is read, and how
page-readings = { $count ->
    [one] one reading
   *[other] { $count } readings
}
page-instrument = With
page-accepted = Accepted
page-no-readings = Nothing radiates yet and nothing is linked, so there is nothing to measure.
page-readings-coming = Putting the readings together
page-measured-by = Measured by, on
page-instruments-used = Instruments, calibrated on
page-accepted-by = Accepted by, on
page-not-measured = not measured
page-change-told = { $says }: { $effect }
