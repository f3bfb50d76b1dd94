# Input that is refused. House rule: say what would be accepted; blame no one.

words-or = { $first } or { $last }
words-and = { $first } and { $last }

# What a system or another library says of a failure, in its own words.
foreign = { $why }

# What a quantity's amount is over or above, where that is part of the quantity.
words-above-ground = { $amount } above ground
words-above-sea = { $amount } above sea
words-effective-height = { $amount } effective
words-eirp = { $amount } EIRP

# A quantity by its tag, with its article, as the beginning of a sentence.
a-quantity =
    { $quantity ->
        [frequency] A frequency
        [deviation] A deviation
        [power] A power
        [radiated-power] A radiated power
        [isotropic-power] A radiated power
        [gain] A gain
        [gain-over-dipole] A gain
        [gain-over-isotrope] A gain
        [ratio] A ratio
        [field-strength] A field strength
        [power-density] A power density
        [attenuation-by-length] A loss by length
        [vswr] A standing wave ratio
        [length] A length
        [height] A height
        [height-above-ground] A height above ground
        [height-above-sea] A height above sea
        [effective-height] An effective height
        [area] An area
        [volume] A volume
        [angle] An angle
        [azimuth] A direction
        [elevation] An angle above the horizon
        [tilt] A beam tilt
        [temperature] A temperature
        [duration] A duration
        [time-constant] A time constant
        [mass] A mass
        [force] A force
        [speed] A speed
        [bitrate] A bit rate
        [percentage] A percentage
        [voltage] A voltage
        [current] A current
        [resistance] A resistance
        [apparent-power] An apparent power
        [energy] An energy
        [charge] A charge
        [level-dbu] An analogue level
        [level-dbfs] A digital level
        [level-dbr] A multiplex power
        [loudness] A loudness
        [sound-level] A sound level
        [money] An amount of money
        [energy-price] A price of energy
        [position] A position
       *[other] A quantity
    }

# The same, as the end of a sentence.
of-quantity =
    { $belongs ->
        [frequency] of frequency
        [deviation] of deviation
        [power] of power
        [radiated-power] of radiated power
        [isotropic-power] of radiated power
        [gain-over-dipole] of gain over a dipole
        [gain-over-isotrope] of gain over an isotrope
        [ratio] of ratio
        [field-strength] of field strength
        [power-density] of power density
        [attenuation-by-length] of loss by length
        [vswr] of standing wave ratio
        [length] of length
        [area] of area
        [volume] of volume
        [angle] of angle
        [temperature] of temperature
        [duration] of time
        [time-constant] of time
        [mass] of mass
        [force] of force
        [speed] of speed
        [bitrate] of bit rate
        [percentage] of share
        [voltage] of voltage
        [current] of current
        [resistance] of resistance
        [apparent-power] of apparent power
        [energy] of energy
        [charge] of charge
        [level-dbu] of analogue level
        [level-dbfs] of digital level
        [level-dbr] of multiplex power
        [loudness] of loudness
        [sound-level] of sound level
       *[other] of something else
    }

quantity-empty = { a-quantity } belongs here: { $examples }.
quantity-not-a-number = { a-quantity } begins with a number: { $examples }. Here stands “{ $text }”.
quantity-not-finite = “{ $text }” is no number that can be used. { a-quantity } reads { $examples }.
quantity-missing-unit = { a-quantity } needs its unit: { $examples }.
quantity-unknown-unit = “{ $unit }” is no unit known here. { a-quantity } reads { $examples }.
quantity-unknown-unit-nearest = “{ $unit }” is no unit known here. Did you mean { $nearest }?
quantity-wrong-unit = “{ $unit }” is a unit { of-quantity }. { a-quantity } reads { $examples }.
quantity-above-what = { $amount } above what? Ground, sea, or the land around.
quantity-over-what = { $amount } over what? { a-quantity } reads { $examples }.
quantity-gain-over-what = { $amount } over what? Write { $dipole } (over a dipole) or { $isotrope }.
quantity-wrong-reference = “{ $found }” counts from elsewhere. { a-quantity } reads { $examples }.
quantity-comma = A file takes the decimal point only, and no marks between thousands. “{ $text }” has a comma.
quantity-two-readings = “{ $text }” can be read as { $decimal } or as { $thousands }. Write one of the two.
quantity-two-separators = “{ $text }” has more than one mark in its number. One decimal mark is enough; none between thousands.
quantity-out-of-range = “{ $text }” is beyond what is possible. { a-quantity } lies between { $low } and { $high }.
quantity-unknown-currency = “{ $currency }” is no currency code of ISO 4217. An amount reads { $examples }.
quantity-swapped = No latitude is beyond 90°. Are latitude and longitude swapped in “{ $text }”?
quantity-not-a-position = “{ $text }” is not two coordinates. A position reads { $examples }.

words-semicolon = {"; "}
words-colon = {": "}
