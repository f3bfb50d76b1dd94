# Labels of figures.
fig-power = { $tag }: transmitter power set
fig-rated = { $tag }: transmitter rating
fig-licence-power = { $tag }: power that just meets the licence
fig-line-loss = { $tag }: loss from transmitter to splitter
fig-mismatch = { $tag }: loss by reflection
fig-vswr-antenna = { $tag }: VSWR at the antenna system
fig-vswr-transmitter = { $tag }: VSWR at the transmitter
fig-gain = { $tag }: greatest gain, splitter and tails included
fig-feed-loss = { $tag }: loss of splitter and tails
fig-height = { $tag }: antenna centre above ground
fig-erp-plane = { $plane ->
    [vertical] { $tag }: greatest ERP, vertical plane
   *[horizontal] { $tag }: greatest ERP, horizontal plane
}
fig-erp = { $tag }: ERP as the licence counts it
fig-step-line = { $tag }, { $length } of { $name }
fig-step-inline = { $tag }, { $name }
fig-step-splitter = { $tag }, { $name }, beyond the division
fig-step-tails = { $tag }, { $count } × { $length } of { $name }
fig-joint = { $count ->
    [one] Joint { $near } to { $far }
   *[other] { $count } joints { $near } to { $far }
}
fig-licensed-erp = { $tag }: licensed ERP
fig-licence-margin = { $tag }: room under the licence, least at { $azimuth }
fig-erp-horizon = { $tag }: ERP towards the horizon at { $azimuth }
fig-condition = { $tag }: field where condition { $number } looks
fig-licence-height = { $tag }: antenna height under the licensed
fig-licence-position = { $tag }: antenna off its licensed position
fig-people = { $service ->
    [stereo] { $situation ->
        [roof] { $tag }: people with stereo on a roof aerial
        [car] { $tag }: people with stereo in a car
       *[indoors] { $tag }: people with stereo indoors
    }
   *[mono] { $situation ->
        [roof] { $tag }: people with mono on a roof aerial
        [car] { $tag }: people with mono in a car
       *[indoors] { $tag }: people with mono indoors
    }
}
fig-land = { $service ->
    [stereo] { $situation ->
        [roof] { $tag }: land with stereo on a roof aerial
        [car] { $tag }: land with stereo in a car
       *[indoors] { $tag }: land with stereo indoors
    }
   *[mono] { $situation ->
        [roof] { $tag }: land with mono on a roof aerial
        [car] { $tag }: land with mono in a car
       *[indoors] { $tag }: land with mono indoors
    }
}
fig-people-total = { $tag }: people in the study's circle
fig-study-step = { $tag }: study step
fig-study-radius = { $tag }: study radius
fig-void = { $tag }: samples without height, filled
fig-water = { $tag }: samples over water
fig-missing = { $tag }: samples on missing tiles
fig-clutter = { $tag }: what stands on the ground
clutter-added = heights of trees and buildings added to bare ground
clutter-in-surface = trees and buildings are in the surface model
clutter-none = no land cover, nothing added
fig-wanted = Field wanted at { $place }
fig-field = Field at { $place }
fig-erp-towards = ERP towards { $place }
fig-loss = Basic transmission loss to { $place }
fig-distance = Distance to { $place }
fig-azimuth = Azimuth of { $place }
fig-depression = { $place } below the antenna's horizon
fig-probability = Chance that { $place } is served
fig-obstacle-loss = What the ground takes on the way to { $place }
fig-obstacle-distance = The highest ground on the way to { $place }, from the mast
fig-area-people = People served within { $radius }
fig-area-share = Share served within { $radius }
fig-area-total = People within { $radius }
fig-exposure-public = { $tag }: public must stay outside
fig-exposure-workers = { $tag }: workers must stay outside
fig-exposure-screening = { $tag }: far-field screening distance, public
fig-exposure-by-bays = { $tag }: distance by the sum over the bays, public
fig-exposure-fence = { $tag }: fence of one wavelength
fig-far-field = { $tag }: far field begins
fig-exposure-point = Exposure at { $place }, share of the limit
fig-exposure-field = Field at { $place }
table-exposure-limit = exposure limit { $limit }
fig-link-availability = Programme arrives at the transmitter
fig-received = { $tag }: received level
fig-hop-availability = { $tag }: share of the year it works
fig-delay = { $tag }: delay
fig-path = { $tag }: path length
fig-free-space = { $tag }: free-space loss
fig-diffraction = { $tag }: diffraction loss at k = 4/3
fig-gas = { $tag }: loss in air and water vapour
fig-eirp = { $tag }: EIRP
fig-fade-margin = { $tag }: fade margin
fig-clearance = { $tag }: least clearance at k = 4/3
fig-clearance-low-k = { $tag }: least clearance at low k
fig-outage = { $tag }: outage
fig-count = { $what ->
    [microphones] Microphones
    [arms] Microphone arms
    [microphone-inputs] Microphone inputs
    [line-inputs] Stereo inputs
    [clean-feeds] Clean feeds
    [hybrids] Telephone hybrids
    [headphones] Headphones
    [headphone-outputs] Headphone outputs
    [monitors] Monitor loudspeakers
    [control-outputs] Control outputs for mute and light
    [on-air-lights] On-air lights
    [playouts] Playout workstations
    [emergency-players] Emergency players
    [processors] Processors or limiters
   *[desk-seats] Places at the desk
}
fig-microphone-level = Speech at the microphone
fig-console-level = Console output
fig-open-microphones = What open microphones cost together
fig-mpx-power = Multiplex power, held to
fig-rack = Rack units used in { $place }
fig-load-all = Power drawn, all sites
fig-load = { $site }: power drawn
fig-transmitter-mains = { $tag }: power from the mains
fig-heat = { $site }: heat left in the room
fig-reserve = { $site }: time on the air without mains
fig-dark = { $site }: hours a year without power
fig-room = { $site }: room on the hottest day
fig-air = { $site }: air needed
fig-energy-year = Energy a year
fig-capital = Price to build, freight and duty in
fig-goods = Equipment and work
fig-work = Work
fig-freight = Freight
fig-duty = Import duty
fig-value-added-tax = Value-added tax, not in the price
fig-running = { $part ->
    [energy] Energy a year
    [rent] Rent a year
    [ways] Leased ways a year
    [maintenance] Upkeep a year
    [insurance] Insurance a year
    [licence-fee] Licence fee a year
    [music-rights] Music rights a year
   *[staff] Staff a year
}
fig-yearly = Running cost a year
fig-over-years = Worth of it all over the years
fig-years = Years counted over
fig-mass = Mass of the delivery

# What a figure is measured against.
whose-rating = rating of { $tag }
whose-connector = rating of the connectors
whose-licence = the licence
whose-brief = the brief
whose-exposure = the exposure limit
whose-threshold = the receiver's threshold
whose-ceiling = the band's ceiling
whose-practice = common practice
whose-clearance = the clearance rule
whose-gain = the console's gain
whose-rack = the racks
whose-connection = the connection
whose-equipment = the equipment's rating
whose-budget = the budget

# What is missing when a figure is not known.
not-computable = the formula has no answer for these inputs
missing-transmission = the chain from transmitter to antenna is not whole
missing-rating = { $item } does not say its rating
missing-field = the field could not be computed
missing-hop = the hop is not whole
missing-availability = the yearly method does not apply, or the hop is not whole
missing-mpx = nothing in the chain holds multiplex power
missing-count = the shelf does not say how many
missing-fenced = within one wavelength of a bay: fence it

# Points of the brief.
point-place = { $service ->
    [stereo] { $situation ->
        [roof] { $place } in stereo
        [car] { $place } in stereo, car
       *[indoors] { $place } in stereo, indoors
    }
   *[mono] { $situation ->
        [roof] { $place } in mono
        [car] { $place } in mono, car
       *[indoors] { $place } in mono, indoors
    }
}
point-area = { $service ->
    [stereo] People in stereo within { $radius }
   *[mono] People in mono within { $radius }
}
point-erp = ERP of { $tag }, under the licence
point-seats = Round the desk, microphones
point-callers = Callers at once, clean feeds
point-without-mains = On the air without mains, { $site }
point-price = Price, freight and duty in
sentence-brief = { $points ->
    [one] A brief of one point, and no design yet.
   *[other] A brief of { $points } points, and no design yet.
}
sentence-station = It is heard by { $people } of { $total } people and costs { $price }. It keeps { $kept } of the { $points } points of its brief.
sentence-station-in-part = It is heard by { $people } of { $total } people. What it costs is not known: { $price } counts only what has a price in the station's currency. It keeps { $kept } of the { $points } points of its brief.
lead-no-design = `stationwright plan` chooses one: the cheapest that keeps the brief, what it cannot keep and why. What follows is asked, not answered yet.
lead = { $errors ->
    [0] { $warnings ->
        [0] Nothing stands before a signature.
        [one] One thing is worth a look before a signature.
       *[other] { $warnings } things are worth a look before a signature.
    }
    [one] { $warnings ->
        [0] One thing stands before a signature.
        [one] One thing stands before a signature, and one more is worth a look.
       *[other] One thing stands before a signature, and { $warnings } more are worth a look.
    }
   *[other] { $warnings ->
        [0] { $errors } things stand before a signature.
        [one] { $errors } things stand before a signature, and one more is worth a look.
       *[other] { $errors } things stand before a signature, and { $warnings } more are worth a look.
    }
}

# What is not in the price.
excluded-tax = Value-added tax
excluded-freight = Freight
excluded-duty = Import duty
excluded-licence-fee = Fees for the licence
excluded-music-rights = Music rights
excluded-staff = Staff
excluded-mast = A mast or pole
excluded-installation = Installation and commissioning
excluded-spares = Spare parts
excluded-acoustics = Acoustic treatment
excluded-furniture = Furniture
excluded-generator = A generator
excluded-reserve = A second transmitter with change-over
excluded-building = Building work, roads, the mains connection, permits
excluded-contingency = A reserve for the unforeseen
excluded-no-price = { $id }: the price list has no price for it

# Questions to send back.
question-frequency = Which frequency is licensed, or hoped for?
question-licence = What power does the licence allow, total or per plane, and in which plane?
question-where = Which places must hear it, in stereo or mono, on the roof, in the car or indoors?
question-site = Where may the mast stand, and where is the studio?
question-budget = How much money is there, and for how many years must it last?
question-seats = How many people talk round the desk at once?
question-callers = How many callers are on the air at once?
question-cuts = How often does the power fail, and how long must the station go on?
question-existing = What equipment, mast or rooms are there already?
question-exposure = Where can people come near the mast: paths, terraces, windows?

# Prices.
per-each = each
per-metre = m
per-square-metre = m²
per-day = { $count ->
    [one] day
   *[other] days
}
per-job = { $count ->
    [one] job
   *[other] jobs
}
added-connector = fitted to cable ends by rule
added-adapter = two sides do not mate
added-foundation = foundation, anchors, erection

# Curves.
along-azimuth = azimuth
along-elevation = elevation
along-distance = distance
of-allowed = ERP the licence allows
of-radiated = ERP radiated
of-gain = gain
of-ground = ground and what stands on it
of-ray = ray at k = 4/3
of-zone = 60 % of the first Fresnel zone

# Stages.
stage-brief = Brief
stage-microphones = Microphones
stage-console = Console
stage-processing = Processing
stage-link = Link
stage-transmitter = Transmitter
stage-feeder = Feeder
stage-antenna = Antenna
stage-field = Field
stage-listener = Listener
stage-sites = Sites
stage-money = Money

severity-error = Error
severity-warning = Warning
severity-caution = Caution
severity-note = Note
not-known = not known
mark-v = looked up in its source
mark-c = computed from a stated formula
mark-m = from memory of its source, to be confirmed
mark-p = common practice, no source
mark-i = invented
spread-sigma = ± { $spread }
spread-between = { $low } to { $high }
against = { $whose }: { $limit }
between = { $low } to { $high }
effect-price = { $price }
effect-over-budget = { $price }, in all { $over } over the budget
effect-people = { $people }
effect-both = { $price }, { $people }
effect-mends = mends it
people-more = { $count ->
    [one] one person more
   *[other] { $count } people more
}
people-fewer = { $count ->
    [one] one person fewer
   *[other] { $count } people fewer
}
no-cost = no cost
