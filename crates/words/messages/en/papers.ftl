# Sentences and headings of the papers.

## Titles, and what is in each

paper-offer = Offer
paper-offer-says = What you get, who will hear it, what it costs, what was assumed
paper-bill = Bill of materials
paper-bill-says = Bill of materials: every item with its price, sums as formulas
paper-chain = Air chain
paper-chain-says = From microphone to listener on one line, as a drawing
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
paper-sources-lead = Every figure follows one of these methods. The right column says how well it is founded; the weakest part counts.

## Columns

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
