# Une autre méthode à côté de P.1812 : la couverture par l’Irregular Terrain Model, et la différence des deux.

second-itm = Irregular Terrain Model
second-head = { $emission } : le champ par l’Irregular Terrain Model, climat { $climate } ({ $climate-name }), pour la moitié du temps et des lieux. Un second avis : la preuve, les lieux et les documents restent à P.1812.
second-climate = { $climate ->
    [1] équatorial
    [2] subtropical continental
    [3] subtropical maritime
    [4] désertique
    [5] tempéré continental
    [6] tempéré maritime, sur terre
   *[7] tempéré maritime, sur mer
}
second-column-p1812 = P.1812
second-column-itm = ITM
second-people = Habitants desservis, { $service ->
    [stereo] stéréo
   *[mono] mono
}, { $situation ->
    [roof] antenne de toit
    [car] en voiture
   *[indoors] à l’intérieur
}
second-difference = Champ par P.1812 moins champ par l’Irregular Terrain Model, sur { $land } de terre : la moitié sous { $median }, un dixième sous { $tenth }, neuf dixièmes sous { $ninetieth } ; au plus { $worst }.
second-only-one = { $land } de plus ne sont répondus que par l’une des deux.
second-no-land = Aucune terre n’est répondue par les deux méthodes : il n’y a rien à comparer.
second-clutter = L’Irregular Terrain Model ignore l’occupation du sol : là où arbres et maisons font obstacle, seule P.1812 en tient compte.
