# One antenna at a time: as it is, and shaped for people.

antenna-nothing = { $tag }: nothing radiates there yet: give the emission an antenna with bays, a transmitter and a power.
antenna-no-field = { $tag }: its coverage could not be computed, so there is nobody to shape for.
antenna-refused = { $tag }: { $why }

antenna-head = { $antenna } for { $tag }, { $frequency }: { $model }
antenna-full = solved as wires on its mast
antenna-draft = a draft by the array model, its mast left out but for a round pole
antenna-apart = The draft by the array model lies { $apart } from it at most, within 10 dB of the maximum.
antenna-plane = { $plane ->
   *[vertical] Vertical
    [horizontal] Horizontal
} plane: { $gain } at { $azimuth }, { $elevation } of elevation; ERP { $erp }
antenna-input = At the splitter: { $power }, VSWR { $vswr }
antenna-bay = bay
antenna-height = m above ground
antenna-azimuth = azimuth
antenna-power = W
antenna-peak = peak V
antenna-phase = phase
antenna-share = share %
antenna-cut = cut m
antenna-velocity = velocity
antenna-annex = azimuth  vertical W  horizontal W   allowed W  margin dB   effective height m
antenna-haat = Height above average terrain (47 CFR 73.313): { $height }

antenna-shape-now = as it is
antenna-shape-equal = best alike
antenna-shape-shaped = shaped
antenna-shape-assessed = shaped, assessed
antenna-shape-row = { $what }: { $people } people with stereo on the roof, { $power } at the splitter, { $margin } inside the licence
antenna-shape-as-many = As many as the best alike reaches, the shaped stack reaches with { $power }.
antenna-shape-stand-off = Stand-off { $off }; numbers of bays from the top, phases against the topmost, lengths between the connectors' reference planes.
antenna-shape-looked = { $places ->
    [one] { $places } place
   *[other] { $places } places
} of the bays solved, { $looks } excitations looked at.
antenna-written = { $count ->
    [one] { $count } change
   *[other] { $count } changes
} written to { $file }. The splitter must divide as the shares say: an equal one gives the phases only.
antenna-not-written = Nothing written; with --write the changes go to { $file }:
antenna-caution = Bays are moved by riggers with the power off and locked; a qualified person checks the harness before power returns.
