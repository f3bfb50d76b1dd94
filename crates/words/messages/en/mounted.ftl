# One antenna at a time: as it is, and shaped for people.

mounted-nothing = { $tag }: nothing radiates there yet: give the emission an antenna with bays, a transmitter and a power.
mounted-no-field = { $tag }: its coverage could not be computed, so there is nobody to shape for.
mounted-refused = { $tag }: { $why }

mounted-head = { $antenna } for { $tag }, { $frequency }: { $model }
mounted-full = solved as wires on its mast
mounted-draft = a draft by the array model, its mast left out but for a round pole
mounted-apart = The draft by the array model lies { $apart } from it at most, within 10 dB of the maximum.
mounted-plane = { $plane ->
   *[vertical] Vertical
    [horizontal] Horizontal
} plane: { $gain } at { $azimuth }, { $elevation } of elevation; ERP { $erp }
mounted-input = At the splitter: { $power }, VSWR { $vswr }
mounted-bay = bay
mounted-height = m above ground
mounted-azimuth = azimuth
mounted-power = W
mounted-peak = peak V
mounted-phase = phase
mounted-share = share %
mounted-cut = cut m
mounted-velocity = velocity
mounted-annex = azimuth  vertical W  horizontal W   allowed W  margin dB   effective height m
mounted-haat = Height above average terrain (47 CFR 73.313): { $height }

mounted-shape-now = as it is
mounted-shape-equal = best alike
mounted-shape-shaped = shaped
mounted-shape-assessed = shaped, assessed
mounted-shape-row = { $what }: { $people } people with stereo on the roof, { $power } at the splitter, { $margin } inside the licence
mounted-shape-as-many = As many as the best alike reaches, the shaped stack reaches with { $power }.
mounted-shape-stand-off = Stand-off { $off }; numbers of bays from the top, phases against the topmost, lengths between the connectors' reference planes.
mounted-shape-looked = { $places ->
    [one] { $places } place
   *[other] { $places } places
} of the bays solved, { $looks } excitations looked at.
mounted-written = { $count ->
    [one] { $count } change
   *[other] { $count } changes
} written to { $file }. The splitter must divide as the shares say: an equal one gives the phases only.
mounted-not-written = Nothing written; with --write the changes go to { $file }:
mounted-caution = Bays are moved by riggers with the power off and locked; a qualified person checks the harness before power returns.
