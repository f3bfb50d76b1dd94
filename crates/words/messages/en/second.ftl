# Another method beside P.1812: the coverage by the Irregular Terrain Model, and the difference of the two.

second-itm = Irregular Terrain Model
second-head = { $emission }: the field by the Irregular Terrain Model, climate { $climate } ({ $climate-name }), for half of the time and places. A second opinion: the proof, places and papers stay with P.1812.
second-climate = { $climate ->
    [1] equatorial
    [2] continental subtropical
    [3] maritime subtropical
    [4] desert
    [5] continental temperate
    [6] maritime temperate, over land
   *[7] maritime temperate, over sea
}
second-column-p1812 = P.1812
second-column-itm = ITM
second-people = People served, { $service ->
    [stereo] stereo
   *[mono] mono
}, { $situation ->
    [roof] roof aerial
    [car] in the car
   *[indoors] indoors
}
second-difference = Field by P.1812 less field by the Irregular Terrain Model, over { $land } of land: half of it below { $median }, a tenth below { $tenth }, nine tenths below { $ninetieth }; the most { $worst }.
second-only-one = { $land } more are answered by one of the two only.
second-no-land = No land is answered by both methods: there is nothing to compare.
second-clutter = The Irregular Terrain Model knows no clutter: where trees and houses stand in the way, P.1812 alone counts them.
