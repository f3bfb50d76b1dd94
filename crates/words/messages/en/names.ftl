# Names of what a station file may say, one for each key that can be assumed or that a figure rests on.
# The code is `name-` and the key's path without the tags of lists; `{ $of }` is whose it is.
# `.unit` is the unit of a key that holds a bare number.

name-ground-generated = Generated ground
name-ground-model = What the elevation model measures
name-study-step = Spacing of the study's samples
name-study-radius = Radius of the study
name-study-time = Share of time the field is kept
name-study-places = Share of places the field is kept
name-study-delta-n = Refractivity gradient ΔN, lowest kilometre
    .unit = N-units
name-study-n0 = Refractivity N₀ at sea level
    .unit = N-units
name-study-location-spread = Spread of the field within a small square
name-study-model-error = Error of the prediction, one standard deviation

name-brief-budget = Budget
name-brief-horizon = Years the cost is counted over
name-brief-discount-rate = Interest rate a year
name-brief-energy-price = Price of electricity
name-brief-seats = People round the desk
name-brief-seats-hosts = Hosts round the desk
name-brief-seats-guests = Guests round the desk
name-brief-seats-operators = Operators apart from the hosts
name-brief-seats-callers = Telephone callers at once
name-brief-seats-contributors = Outside contributors at once
name-brief-seats-duty = Share of the year on the air
name-brief-continuity-availability = Share of the year the programme must run
name-brief-continuity-without-mains = On the air without mains
name-brief-delivery-duty = Import duty, share of the goods
name-brief-delivery-freight = Freight of the whole delivery
name-brief-delivery-value-added-tax = Value-added tax
name-brief-delivery-spare-lead-time = Time until a spare part is there
name-brief-running-maintenance = Upkeep, share of the price a year
name-brief-running-insurance = Insurance, share of the price a year
name-brief-running-licence-fee = Licence fee a year
name-brief-running-music-rights = Music rights a year
name-brief-running-staff = Staff a year
name-brief-wanted-service = Service wanted, { $of }
name-brief-wanted-situation = How people listen, { $of }
name-brief-wanted-surroundings = What surrounds the listener, { $of }
name-brief-wanted-share = Share of the people wanted, { $of }
name-brief-wanted-within = Radius wanted, { $of }

name-sites-ground = Ground above sea at { $of }
name-sites-rent = Rent a year at { $of }
name-sites-mast-kind = Kind of mast at { $of }
name-sites-mast-height = Height of the mast at { $of }
name-sites-mast-width = Width of the mast at { $of }
name-sites-mast-panel = Height of a panel of the mast at { $of }
name-sites-mast-leg = Diameter of the legs of the mast at { $of }
name-sites-mast-bracing = Diameter of the bracing of the mast at { $of }
name-sites-mast-spare-wind-area = Wind area the mast at { $of } can still bear
name-sites-supply-mains = Mains at { $of }
name-sites-supply-voltage = Mains voltage at { $of }
name-sites-supply-capacity = Mains connection at { $of }
name-sites-supply-cuts-per-week = Power cuts at { $of }
    .unit = a week
name-sites-supply-usual-cut = Length of a usual power cut at { $of }
name-sites-supply-peak-sun-hours = Full sun at { $of }, worst month
    .unit = h a day
name-sites-climate-sea-air = Salt in the air at { $of }
name-sites-climate-wind = Basic wind at { $of }
name-sites-climate-ice = Ice, thickness all round, at { $of }
name-sites-climate-hottest = Hottest day outdoors at { $of }
name-sites-climate-rain-mm-per-h = Rain exceeded 0.01 % of the year at { $of }
    .unit = mm/h
name-sites-climate-terrain-category = Roughness class of the ground at { $of }
name-sites-climate-flashes-per-km2-year = Lightning at { $of }, flashes per km² and year
name-sites-shelter-volume = Air in the equipment room at { $of }
name-sites-shelter-airflow-m3-h = Air through the equipment room at { $of }
    .unit = m³/h
name-sites-shelter-cooling = Cooling installed at { $of }
name-sites-shelter-warmest = Warmest the equipment room at { $of } may get
name-sites-public-points = Point people reach, { $of }
name-sites-others-exposure-share = Share of the exposure limit that { $of } brings

name-emissions-frequency = Frequency of { $of }
name-emissions-power = Transmitter power stated for { $of }
name-emissions-licence-erp = Licensed ERP of { $of }
name-emissions-licence-height = Licensed antenna height of { $of }
name-emissions-licence-position = Licensed position of { $of }
name-emissions-licence-polarisation = Licensed polarisation of { $of }
name-emissions-licence-masks = Licensed attenuation by azimuth of { $of }
name-emissions-licence-conditions-below = Field that a condition allows { $of }

name-antennas-height = Height of antenna { $of }
name-antennas-bays = Bays of antenna { $of }
name-antennas-spacing = Distance from bay to bay of antenna { $of }
name-antennas-element = Bay of antenna { $of }
name-antennas-azimuth = Direction antenna { $of } faces
name-antennas-tilt = Beam tilt of antenna { $of }
name-antennas-upper-half = Power in the upper half of antenna { $of }
name-antennas-stand-off = Distance of antenna { $of } from the mast

name-hops-way = How link { $of } travels
name-hops-from-height = Antenna height of link { $of }, studio end
name-hops-to-height = Antenna height of link { $of }, far end
name-hops-line-loss = Loss of the lines of link { $of }, both ends
name-hops-availability = Share of the year link { $of } must work
name-hops-fee = Fee a year of link { $of }
name-hops-leased-availability = Share of the year link { $of } works if leased

name-rooms-volume = Air in room { $of }
name-rooms-warmest = Warmest room { $of } may get
name-rooms-public-points = Point people reach, { $of }

name-cables-length = Length of cable { $of }
name-cables-temperature = Temperature of cable { $of } at work

# Whose it is, where a tag says too little.
name-of-within = within { $radius }

# Words that a value may be.
value-yes = yes
value-no = no
value-roof = aerial on the roof
value-car = car or portable outdoors
value-indoors = set indoors
value-indoors-efficient-building = set indoors, efficient building
value-rural = open country
value-urban = town
value-large-city = large city
value-mono = mono
value-stereo = stereo
value-bare-ground = bare ground
value-surface = surface with roofs and trees
value-demo-island = invented island
value-rolling-plain = invented rolling plain
value-alpine-valley = invented alpine valley
value-hill-coast = invented hilly coast
value-vertical = vertical
value-horizontal = horizontal
value-mixed = both planes
value-pole = pole
value-guyed-lattice = guyed lattice mast
value-self-supporting-lattice = self-supporting lattice mast
value-same-building = cable within the building
value-radio = radio
value-internet = internet connection
value-fibre = fibre
value-mobile-data = mobile data

# Units that are words.
unit-year = year
unit-years = years
unit-month = month
unit-months = months
unit-week = week
unit-weeks = weeks
unit-day = day
unit-days = days
unit-people = people
unit-a = years
