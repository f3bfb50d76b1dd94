# The chain over the band.

sweep-no-emission = The station has no emission `{ $tag }`; it has { $known }.
sweep-not-known = { $tag }: its { $key } is not known yet.
sweep-unrated = { $tag } has no line or loss rating on the shelf: the chain cannot be computed through it.
sweep-refused = { $tag }: the chain cannot be computed: { $why }.
sweep-no-power = { $tag } has no power yet.
sweep-measured = { $path }: { $why }

sweep-head = { $tag }: { $power } forward at { $transmitter }, { $frequency }
sweep-carrier = On its carrier: VSWR { $vswr }, return loss { $return }, { $reflected } come back, { $loss } on the way to the antenna.
sweep-channel = Over its channel VSWR { $vswr } at most.
sweep-no-limit = From which VSWR the transmitter folds back is not on the shelf.
sweep-never-folds = The transmitter folds back from VSWR { $limit }: nowhere from 87.5 to 108 MHz.
sweep-folds = The transmitter folds back from VSWR { $limit }: { $stretches }.
sweep-stretch = { $from } to { $to } MHz
sweep-laid = { $path } lies { $mean } from the prediction in the mean, { $worst } at most (distance of the reflection coefficients).
sweep-plane = at
sweep-forward = forward W
sweep-back = back W
sweep-peak = peak V
sweep-mhz = MHz
sweep-vswr = VSWR
sweep-return = return dB
sweep-measured-column = measured dB
sweep-caution = Meters and analysers at the transmitter only with the power off and the line discharged; a qualified person measures.
