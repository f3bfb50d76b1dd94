# Sentences and headings of the papers.

## Titles, and what is in each

paper-offer = Offer
paper-brief = Brief, and what it leaves open
paper-offer-says = What you get, who will hear it, what it costs, what was assumed
paper-bill = Bill of materials
paper-bill-says = Bill of materials: every item with its price, sums as formulas
paper-chain = Air chain
paper-chain-says = From microphone to listener on one line, as a drawing
paper-rigging = Rigging sheet
paper-rigging-says = For the mast crew: the stack with its dimensions, the harness, the cautions
paper-annex = Licence annex
paper-annex-says = The antenna as it radiates: cuts, 36 rows of ERP and effective height, currents, the cutting list
paper-acceptance = Acceptance sheet
paper-acceptance-says = What to measure on the day: promised, accepted, room for the reading and a signature
paper-map-png = Map
paper-map-png-says = Field on land, outlines and places, as a picture
paper-map-tif = Map, raster
paper-map-tif-says = Median field in hundredths of a dB, EPSG 4326
paper-map-geojson = Map, outlines
paper-map-geojson-says = Outlines of equal field and places, for maps
paper-map-kml = Map, outlines for globes
paper-map-kml-says = Outlines of equal field and places, for globes
paper-places = Places
paper-places-says = Masts, studios and places with field and room in hand
paper-builder = Costs, for the builder only
paper-builder-says = FOR THE BUILDER ONLY: holds cost prices, not to be sent to the client

## Title block

paper-for = For
paper-revision = Revision
paper-date = Date
paper-file = File
paper-sheet = Sheet
paper-drawn = Drawn, checked, approved
paper-unsigned = not yet signed
paper-invented = invented

## Headings and leads of the offer

paper-gets = What you get
paper-gets-lead = Everything below is delivered and priced on the sheets that follow, in the order in which the programme passes through it.
paper-asked-answered = Asked and answered
paper-heard = Who will hear it
paper-heard-lead = Each figure weighs everyone by the chance that the field is enough where they live: people near the edge count in part.
paper-no-map = There is no map yet: nothing radiates.
paper-map-alt = Map of the median field on land, with outlines at the wanted fields, the mast and the places
paper-ruler-alt = Classes of field and what each is wanted for
paper-map-lines = Lines as on the ruler: thin for open country, heavier for town and large city; dashed where only mono is wanted. Wanted fields after Rec. ITU-R BS.412-9, Table 1.
paper-signal = How the signal travels
paper-signal-lead = One line from the microphone to the listener. Above each stage stands what it has in hand, below it its level; a square or triangle marks a stage with a finding.
paper-chain-alt = The air chain: nine stages with level, room in hand and worst finding
paper-ladder = From the transmitter to radiated power
paper-link = The link from the studio
paper-price = What it costs
paper-without-tax = without value-added tax
paper-excluded = What is not in the price
paper-excluded-lead = None of this is in the sum above. What of it you need is yours to arrange, or ours to price on request.
paper-running = Running cost
paper-short-heading = What stands before a signature
paper-short-lead = The design as it stands falls short here. Nothing is hidden in a footnote.
paper-cautions = Cautions
paper-assumptions = What was assumed
paper-assumptions-lead = Nobody told us these, so we took them. The first are worth the most; tell us better and the offer is worked out again.
paper-questions = Questions for you
paper-sources = Where the figures come from
paper-sources-lead = Every figure follows one of these methods; beside each stands how well it is founded. The weakest part counts.
paper-notes = To be noted
paper-sign = Terms and signature
paper-sign-accepts = Whoever signs takes the design as it stands, these points included:
paper-sign-covers = The signatures cover revision { $revision } with the file { $file }, all its sheets, and nothing said elsewhere.
paper-sign-client = For the client
paper-sign-supplier = For the supplier
paper-sign-whom = Company
paper-sign-name = Name, in letters
paper-sign-place = Place and date
paper-sign-signature = Signature

## Headings of the rigging sheet

paper-rigging-lead = For the mast crew and whoever checks their work
paper-rigging-alt = The mast with the bays, their heights above ground, spacing, splitter and feeder, and the stack from above
paper-rigging-mast = Mast
paper-rigging-kind = Kind
paper-rigging-top = Top
paper-rigging-width = Width
paper-rigging-mass = Bays weigh
paper-rigging-wind-area = Bays' wind area
paper-rigging-stack = Stack
paper-rigging-element = Bay
paper-rigging-polarisation = Plane
paper-rigging-centre = Centre
paper-rigging-spacing = Bay to bay
paper-rigging-stand-off = Stand-off
paper-rigging-azimuth = Faces
paper-rigging-splitter = Splitter
paper-rigging-inverted = upside down: turn over
paper-rigging-away = Stay away on air
paper-rigging-public = Public
paper-rigging-workers = Workers
paper-rigging-not-to-scale = Heights to scale, above ground; widths, feeder and guys are not. Numbers of bays from the top; dotted: the public stays outside. Structure, guys and anchors after the structural engineer's drawing.
paper-rigging-plan = From above
paper-rigging-plan-alt = The stack from above, north up: the direction the bays face and their distance from the mast
paper-rigging-harness = Harness
paper-rigging-how = How it is put up
rigging-note-arrows = Arrow up on every bay. One bay upside down takes most of the field at the horizon, and no meter at the transmitter shows it.
rigging-note-labels = A label on both ends of every cable before it goes up; photograph every joint before it is wrapped.
rigging-note-reel = Tails of one length come from one reel, cut and measured together; port and bay as listed.
rigging-note-bends = No bend tighter than listed, a drip loop at the entry, hangers at least every metre.
rigging-note-weather = Every joint tightened with a torque wrench, then wrapped; the line earthed at the top, at the foot and at the entry.
rigging-note-sweep = Sweep the line and each tail before and after it goes up; keep the files for the acceptance sheet.

## Headings of the licence annex

annex-full = solved as wires on the mast, by the method of moments
annex-draft = a draft by the array model: no proof yet
annex-plane = { $plane ->
    [vertical] Vertical plane
   *[horizontal] Horizontal plane
}
paper-annex-lead = The antenna as it radiates, for the licence and its administration
paper-annex-carrier = Carrier
paper-annex-computed = Computed
paper-annex-vswr = VSWR at the splitter
paper-annex-gain = Greatest gain
paper-annex-towards = Towards
paper-annex-elevation = Elevation
paper-annex-erp = ERP there
paper-annex-haat = Height above average terrain, 47 CFR 73.313
paper-annex-round = Round the horizon: ERP against the licence
paper-annex-round-alt = Polar plot of the radiated and the allowed ERP, with the served places
paper-annex-round-says = Violet: radiated, the strongest of all elevations; black: allowed. The radius goes with the field: half the power is seven tenths of it.
paper-annex-cut = Below the horizon
paper-annex-cut-alt = Vertical cut through the strongest direction, with the served places
paper-annex-unrolled = The pattern unrolled
paper-annex-unrolled-alt = Level under the peak by azimuth and elevation, with the served places
paper-annex-unrolled-says = Azimuth from north to north, left to right; elevation upwards. The darker, the nearer the peak: steps as on the ruler beside it.
paper-annex-currents = Currents along the wires
paper-annex-currents-alt = The stack and its mast from the side, each wire as thick as its current
paper-annex-currents-says = From the side, the bays' direction to the right. A line is as thick as the current in it; the strongest carries { $amps }.
paper-annex-places = Places
paper-annex-bays = The bays as they are fed
paper-annex-cuts = Cutting list
paper-annex-rows = ERP and effective height by azimuth
paper-annex-rows-says = ERP in the strongest elevation. Effective height over the mean ground from 3 to 15 km, Rec. ITU-R P.1546-6 § 4.3.

## Headings of the acceptance sheet

paper-acceptance-lead = What to measure on the day. A reading outside what is accepted is written down, not mended on paper.
paper-acceptance-sign = Signed off
paper-acceptance-instruments = Instruments, with serial number and day of calibration
paper-acceptance-weather = Weather
paper-acceptance-covers = The readings above were taken on the station of revision { $revision }, file { $file }.

## Columns

paper-col-azimuth = Azimuth
paper-col-elevation = Elevation
paper-col-distance = Distance
paper-col-erp = ERP
paper-col-vertical = Vertical
paper-col-horizontal = Horizontal
paper-col-counted = Counted
paper-col-allowed = Allowed
paper-col-effective = Effective height
paper-col-current = Current, of the strongest
paper-col-phase = Phase
paper-col-power = Power
paper-col-vswr = VSWR
paper-col-port = Port
paper-col-longer = Longer than the shortest
paper-col-electrical = Electrical length
paper-col-velocity = Velocity factor
paper-col-number = No.
paper-col-what = What, with which instrument, how
paper-col-promised = Promised
paper-col-accepted = Accepted
paper-col-measured = Measured
paper-col-initials = Signed
paper-col-bay = Bay
paper-col-height = Above ground
paper-col-label = Label
paper-col-from = From
paper-col-to = To
paper-col-length = Length
paper-col-bend = Tightest bend

paper-col-point = Point
paper-col-asked = Asked
paper-col-answered = Answered
paper-col-in-hand = In hand
paper-col-way = Heard how
paper-col-people = People
paper-col-land = Land
paper-col-item = Item
paper-col-tag = Tag
paper-col-stage = Stage
paper-col-quantity = Quantity
paper-col-unit = Unit
paper-col-each = Each
paper-col-price = Price
paper-col-mass = Mass
paper-col-cost = Cost to the builder
paper-col-earned = Earned
paper-col-year = A year
paper-col-taken = Taken
paper-col-worth = Worth
paper-col-source = Method and source
paper-col-founded = How well founded
paper-services = Work, spares, services
paper-short = short

## Tabs of the spreadsheet

paper-bill-tab = Bill
paper-running-tab = Running cost

## Strip below the map

paper-strip-method = Method
paper-strip-step = Study step
paper-strip-radius = Radius
paper-strip-heard = Heard
paper-strip-roof = median, aerial at 10 m

## Terms

term-valid = Open until
term-delivery = Delivered by
term-on-air = On the air by
term-payment = Payment
term-warranty = Warranty
term-installation = Installed by
term-open = to be agreed
installed-by = { $who ->
    [volunteers] the client's own people
   *[contractor] a contractor
}

## The harness

harness-bay = { $antenna }, bay { $number }
harness-port = { $item }, port { $number }

## What is measured on the day

accept-at-most = at most { $limit }
accept-at-least = at least { $limit }
accept-within = { $low } to { $high }
accept-off = ± { $limit }

accept-group-transmitter = Transmitter and line
    .caution = Radio-frequency burns and mains kill: only trained people open or probe what is live. No connector is opened under power.
accept-group-modulation = Modulation
    .caution = Loud programme hurts ears: measure with the monitors down.
accept-group-antenna = Antenna and mast
    .caution = Climb only with every transmitter on the mast off and locked off, by trained people with a rescue plan, never in a storm.
accept-group-field = Field at the places
    .caution = A mast on a vehicle must never come near overhead lines; no measuring in a storm.
accept-outside-field = Outside what is accepted: forward and reflected power and the field at several places, read together, tell which fault of the antenna fits. “stationwright diagnose” says where to read, and ranks the faults.
accept-group-exposure = People near the antenna
    .caution = Approach from outside with the probe in front; turn back at the limit. Local rules and a qualified assessor decide.
accept-group-link = Link from the studio
    .caution = No one stands in front of a dish that transmits; on roofs, fall protection.
accept-group-supply = Supply
    .caution = Mains is measured by a qualified electrician. Batteries and generators feed on after the mains is cut.

accept-forward = Forward power at { $tag }
    .instrument = directional power meter, 5 %
    .how = at the transmitter's output, unmodulated, after half an hour's warming up
accept-reflected = Reflected power at { $tag }
    .instrument = directional power meter, 5 %
    .how = at the same place, element reversed, in dry weather
accept-return-loss = Return loss at { $tag }'s output
    .instrument = network analyser with a calibrated lead
    .how = transmitter off and locked off, lead in place of it, 0.2 MHz either side of the carrier
accept-carrier = Carrier of { $tag }
    .instrument = frequency counter or analyser with a known reference
    .how = at the transmitter's monitor output, unmodulated
accept-deviation = Peak deviation of { $tag }
    .instrument = modulation meter
    .how = peak hold over ten minutes of the loudest programme, direct signal only
accept-mpx = Multiplex power of { $tag }
    .instrument = modulation meter with multiplex power, any 60 s
    .how = highest reading over one hour of usual programme
accept-pilot = Deviation by the pilot tone of { $tag }
    .instrument = modulation meter
    .how = 19 kHz alone, programme silent
accept-radio-data = Deviation by radio data of { $tag }
    .instrument = modulation meter or spectrum of the multiplex
    .how = 57 kHz band, programme silent
accept-height = Height of { $antenna }'s centre above ground
    .instrument = steel tape or laser
    .how = halfway between the top and bottom bays, arrows up on every bay
accept-azimuth = Direction { $antenna } faces, from true north
    .instrument = compass with declination, or a sighted landmark
    .how = from the ground, away from the steel
accept-antenna-return-loss = Return loss at { $antenna }'s input
    .instrument = network analyser
    .how = at the top of the feeder, 0.2 MHz either side of the carrier
accept-field = Median field at { $place }, { $height } above ground
    .instrument = field-strength meter with a calibrated antenna
    .how = at least ten points over some 100 m, licensed polarisation, median of them
accept-exposure = Field at { $place }
    .instrument = isotropic broadband probe, calibrated
    .how = largest of 0.5 m, 1.1 m and 1.7 m above the floor, averaged as the local rules say, full power
accept-fence = Distance of fence and signs from { $tag }'s bays
    .instrument = tape or laser
    .how = all round, at the height people can reach
accept-received = Received level of { $tag }
    .instrument = the receiver's own reading, both ends
    .how = antennas peaked, clear weather, noted with date and hour
accept-draw = Power drawn at { $site }
    .instrument = energy meter in the supply
    .how = everything on, ten minutes' mean
accept-battery = Time on the air without mains, { $site }
    .instrument = watch
    .how = batteries full, mains cut at the board, until the carrier or the programme fails
compass-north = N
compass-east = E
compass-south = S
compass-west = W
papers-too-large = { $width } × { $height } pixels cannot be held
