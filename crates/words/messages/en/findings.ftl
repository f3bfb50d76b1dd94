# Findings by code, and what their remedies do.
tx-01 = { $tag }: the licence would bear { $needed }, the transmitter gives { $rated }: { $short } short.
tx-01-do = Take { $name }
tx-02 = { $tag } takes { $power } of { $rated }: nothing is left in hand.
tx-03 = { $tag }: VSWR { $vswr } at the transmitter; it folds back at { $limit }.
tx-04 = { $tag } wants { $power }; this transmitter goes no lower than { $least }.
tx-05 = { $tag }: { $carrier } is outside the band from { $from } to { $to }.
tx-06 = { $tag }: { $carrier } is off the raster of { $raster }.
tx-06-do = Write { $near }
tx-07 = { $tag }, { $name }, is not rated for continuous duty: it cannot be proved that it lasts.
tx-08 = { $tag } needs three phases; { $site } has one.
tx-08-do = Have three phases laid to { $site } (not in the price)
tx-09 = A second transmitter is asked for, and none waits in reserve of { $tag }.
tx-09-do = Add a second one like it, with { $name }
fd-01 = { $tag } bears { $power }; hot, in the sun and all day it may bear { $allowed }.
fd-01-do = Take { $name }
fd-02 = The connectors between { $near } and { $far } bear { $power }; they may bear { $allowed }.
fd-03 = { $near } and { $far } do not go together: { $one } against { $other }, and no adapter on the shelf joins them.
fd-04 = Between { $near } and { $far } stands an adapter: { $name }.
fd-05 = { $tag } loses { $loss }: { $share } of the power heats the line.
fd-06-transmitter = { $tag } names no transmitter that is there.
fd-06-antenna = { $tag } names no antenna that is there.
fd-06-open = No cable leaves { $tag }: the chain ends there.
fd-06-circle = The cables from { $tag } run in a circle.
fd-06-other = The cables end at { $tag }, which is not this programme's antenna.
fd-07 = { $tag }: no surge arrester stands in the line.
fd-08 = { $tag }, { $name }, does not say its loss or its power: it cannot be proved.
fd-09 = Earth kits for the feeder: { $there }; top, bottom and entry want { $wanted }.
fd-09-do = Have { $wanted } earth kits
fd-10 = { $tag }, { $name }, climbs the mast, and no earth kit goes on it: lightning comes in on a line that nothing bonds.
an-01 = { $tag }: { $ways } ways at the splitter, { $bays } bays.
an-01-do = Have { $ways } bays
an-02 = { $tag }: { $bays } bays and no splitter between them and the feeder.
an-03 = { $tag }: a bay gets { $power }; bay and branch may bear { $allowed }.
an-04 = { $tag }: { $name } corrodes in sea air.
an-05 = { $tag }: bay { $bays } hangs upside down, says the file. The VSWR does not show it, the field does.
an-05-do = Turn it over, arrow up
an-06 = { $tag } reaches from { $foot } to { $top } above ground; the mast ends at { $mast }.
an-06-do = Put its centre at { $centre }
an-07 = { $built ->
    [vertical] { $tag } radiates in the vertical plane, and the licence does not name it.
    [horizontal] { $tag } radiates in the horizontal plane, and the licence does not name it.
   *[mixed] { $tag } radiates in both planes; the licence names one.
}
an-07-do = { $licensed ->
    [vertical] Turn the dipoles upright
   *[horizontal] Lay the dipoles level
}
an-08 = { $place }, { $depression } below the horizon, gets { $below } less than the main lobe: it lies in a null.
an-08-level = Take the tilt back
an-08-do = Fill the null with 70 % of the power in the upper half
an-09 = { $tag } is computed as bays in free space; a mast beside them bends the pattern by a few decibels.
an-10-bay = { $tag } has no antenna with a bay from the shelf.
an-10-missing = { $path } is not known, and the antenna cannot be computed without it.
an-10-refused = { $tag }: the antenna cannot be computed: { $why }.
an-11 = { $tag }: { $ice } of ice and no cover on the bays: expect fold-back in winter.
an-13 = { $tag }: { $ice } of ice and no cover on the bays. One iced day a year is more than { $asked } of the year on the air allows.
an-14 = { $tag }: the splitter gives bay { $bay } { $given } of the power, the design asks for { $wanted }. The pattern computed needs a splitter made for that division.
an-14-do = Divide equally, keep the phases
li-01 = { $tag }: { $radiated } towards { $azimuth }, the licence allows { $allowed }: { $over } over.
li-01-do = Set the power from the licence
li-02 = { $tag } stays { $under } under the licence in every direction.
li-02-condition = { $tag } stays { $under } under what the conditions of its licence allow.
li-03 = { $tag }: the antenna stands { $over } higher than the licence allows.
li-04 = { $tag }: the site lies { $off } from the licensed position; { $tolerance } is tolerated.
li-05 = { $tag }: { $field } at { $distance }, towards { $azimuth }; the licence asks for less than { $below }.
li-05-do = Set the transmitter to { $power }
li-06 = { $tag }: { $radiated } of { $allowed }. A transmitter set 2 % high would pass the licence.
li-07 = { $tag }: the licence's power or polarisation is not known; nothing is proved against it.
li-08 = { $tag } radiates { $erp }; at least { $least } is asked for.
li-09 = { $tag }: the licence ends on { $day }.
li-10 = { $site }: 2 × { $one } − { $other } falls at { $product }, in the aeronautical band. A filter holds it down; the administration decides.
co-01 = { $service ->
    [stereo] { $place } gets { $field }, { $short } short of stereo.
   *[mono] { $place } gets { $field }, { $short } short of mono.
}
co-01-hidden = { $service ->
    [stereo] { $place } gets { $field }, { $short } short of stereo. The ground { $away } from the mast takes { $taken }.
   *[mono] { $place } gets { $field }, { $short } short of mono. The ground { $away } from the mast takes { $taken }.
}
co-01-mono = Promise { $place } mono only
co-02 = { $there } people are served within { $radius }; { $asked } were asked for.
co-03 = { $tag }: { $share } of the study lies behind missing tiles.
co-03-do = Treat missing tiles as sea
co-04-surface = The tiles are a surface model: trees and roofs are in them, and nothing is added on top.
co-04-none = No land cover is known: trees and buildings are left out, and the field in towns is painted too strong.
co-05 = { $what }, { $away } out, lies outside the study of { $radius }.
co-05-do = Study out to { $radius }
co-06 = { $tag }: the field could not be computed: { $why }.
co-07 = { $tag }: the study step of { $step } is coarse; hills between samples are missed.
co-07-do = Study at 90 m
co-08 = { $site } stands in the water by its position. Are latitude and longitude right?
co-08-west = { $site } stands in the water by its position. Is the longitude west?
lk-01 = No hop leads from { $from } to { $to }: the programme does not arrive.
lk-01-do = Send it over the internet with a codec pair
lk-01-reserve = Only a way in reserve leads from { $from } to { $to }: the programme has no main way to arrive by.
lk-02 = { $tag }: the ray clears the ground by { $clearance } at { $away }; { $short } more is wanted.
lk-02-both = Raise the antennas to { $from } and { $to }
lk-02-do = Raise the antenna at { $end } to { $to }
lk-03 = { $tag }: fade margin { $margin }; { $wanted } is usual.
lk-04 = The programme arrives for { $there } of the year; { $wanted } is asked.
lk-04-do = Add a reserve way over mobile data
lk-04-do-line = Add a reserve way over an internet line
lk-05-missing = { $tag } cannot be computed: { $path } is not known.
lk-05-why = { $tag } cannot be computed: { $why }.
lk-06 = { $tag }: { $carrier } is outside the band of its radio.
lk-06-way = { $tag }: { $equipment } does not send over { $way }.
lk-06-way-do = Use { $equipment } for it
lk-07 = The programme is { $delay } late on the air: monitor the desk, not the air.
lk-08 = A second way to the transmitter is asked for; there is only one.
st-01 = { $needed ->
    [one] One person talks
   *[other] { $needed } people talk
}; microphones there: { $there }.
st-01-do = { $count ->
    [one] Add a microphone
   *[other] Add { $count } microphones
}
st-02 = Microphones: { $needed }. Microphone inputs: { $there }.
st-03 = Stereo sources: { $needed }. Stereo inputs: { $there }.
st-04 = { $needed ->
    [one] One voice
   *[other] { $needed } voices
} from outside, { $there ->
    [0] no clean feed: every caller would hear their own voice.
    [one] one clean feed: a caller would hear their own voice.
   *[other] { $there } clean feeds: a caller would hear their own voice.
}
st-04-fewer = { $there ->
    [0] Take no callers
    [one] Take one caller at a time
   *[other] Take { $there } callers at a time
}
st-05 = Callers: { $needed }. Telephone hybrids: { $there }.
st-05-do = { $count ->
    [one] Add a hybrid
   *[other] Add { $count } hybrids
}
st-06 = People in the studio: { $needed }. Headphones: { $there }.
st-06-do = { $count ->
    [one] Add a pair of headphones
   *[other] Add { $count } pairs of headphones
}
st-07 = People in the studio: { $needed }. Headphone outputs: { $there }.
st-07-do = Add a headphone amplifier
st-08 = Microphones: { $needed }. Arms: { $there }.
st-08-do = { $count ->
    [one] Add an arm
   *[other] Add { $count } arms
}
st-09 = Muting and the on-air light want control outputs: { $needed }; the console has { $there }.
st-10 = There is no on-air light.
st-10-do = Add an on-air light
st-11 = Nothing plays music: no playout workstation.
st-11-do = Add a playout workstation
st-12 = An emergency player is asked for, and there is none.
st-12-do = Add an emergency player
st-13 = Nothing limits the peaks: no processor, and no limiter in the transmitter.
st-13-do = Add a processor
st-14 = People in the studio: { $needed }. Places at the desk: { $there }.
st-15 = A pair of monitor loudspeakers is usual; there: { $there }.
st-15-do = { $count ->
    [one] Add a loudspeaker
   *[other] Add { $count } loudspeakers
}
st-16 = Multiplex power is limited here, and nothing in the chain holds it: a regulator measures it.
st-17 = Radio data are asked for, and no RDS encoder is there.
st-17-do = Add an RDS encoder
st-18 = { $place }: { $used } rack units used of { $offered }; a fifth should stay free for air.
st-19 = Speech needs { $needed } of gain; the console gives { $there }.
st-20 = { $tag }, { $name }, is not made to run all day.
pw-01 = { $site } draws { $load }; the connection gives { $capacity }.
pw-02 = { $site } has no mains, and nothing else feeds it.
pw-03 = { $site } stays on the air for { $there } without mains; { $wanted } is asked.
pw-03-do = Put { $name } at { $site }
pw-04 = { $site }: the room reaches { $room } on the hottest day; its equipment bears { $allowed }.
pw-04-do = Move { $air } of air through { $site }
pw-05 = { $tag } does not say what it draws: load and heat leave it out.
pw-06 = { $site } draws { $load }; battery and generator give { $output }.
sa-01 = { $place }: exposure reaches { $share } of the limit.
sa-01-fenced = { $place } lies within one wavelength of a bay: fence it off.
sa-02 = { $place }: what { $others } adds is not known; the sum is not whole until they say.
sa-03 = { $tag }: the public must stay { $public } from the bays while on air, workers { $workers }. Preliminary: a qualified assessor decides with site measurement.
sa-04 = Climb only with every transmitter on the mast off and locked off, checked with a meter, by trained people with a rescue plan. Local rules go first.
sa-05 = Mains is dangerous: switch off, lock, discharge and earth before touching; a qualified electrician checks protection and earth. Never lift the safety earth against hum.
sa-06 = The mast draws lightning: one earth bar at the entry, every line bonded to it, nobody at the mast in a storm. A specialist designs the protection.
sa-07 = Whether the mast, its foundation and its guys hold, with wind and ice, a licensed structural engineer decides before anything is hung on it.
mo-01 = The station costs { $price }; { $budget } are there: { $over } over.
mo-02 = { $id } ({ $shelf }) has no price: the sum leaves it out.
mo-03 = The price list is { $days } days old; { $lines } prices come from it.
mo-04 = { $count ->
    [one] The price of { $first } is in { $from }
   *[other] { $count } prices are in { $from }, that of { $first } among them
}, not in { $currency }, and in no sum. Say in the file what one { $from } is worth: [[exchange]] with tag = "{ $from }" and rate.
mo-05 = { $id } weighs { $mass } packed; a case may weigh { $limit }.
mo-06 = { $days } days are left until { $day }; equipment and crew usually want eight weeks.
mo-06-past = The day it was to be on the air, { $day }, is { $days } days past.
br-01 = The brief names no place that must hear it.
br-02 = No budget is known: the price is judged by nothing.
br-03 = { $site } allows { $allowed } above ground; the licence would allow { $licensed }.
br-04 = { $tag }: frequency or power is assumed. No licence stands behind this design.
br-05 = Nothing is chosen yet: `stationwright plan` with this folder proposes a design, and with --write puts it into the file.
br-06 = { $path }: nothing on the shelf is called { $id }. It is left out of every sum.
br-06-do = Write { $near }
br-07 = The file asks for sentences in “{ $tag }”; the program has { $known }. Page and papers are in another language than was wanted.
br-07-do = Write { $tag }
