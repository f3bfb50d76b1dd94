# Words of the desk behind the page.
handle-power = transmitter power
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
horizon-in-hand = { $margin } in hand at { $at }
horizon-over = { $margin } over at { $at }
offer-chosen = The cheapest that keeps the brief
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
