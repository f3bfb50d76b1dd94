# Ce qui est refusé dans un fichier de station, une étagère, un profil de pays ou une liste de prix.

found =
    { $found ->
        [text] un texte
        [whole] un nombre entier
        [number] un nombre
        [truth] vrai ou faux
        [date] une date
        [list] une liste
       *[table] une section
    }

a-tagged =
    { $what ->
        [place] lieu
        [antenna] antenne
        [site] site
        [site-or-room] site ou local
        [item-or-antenna] article ou antenne
       *[item] article
    }

file-format = `{ $format }` : ce programme lit le format 1
file-format-help = écrivez `format = 1`
file-no-such-tag = aucun repère `{ $tag }` ({ a-tagged })
file-did-you-mean = vouliez-vous dire `{ $near }` ?
file-none-yet = le fichier n’en contient pas encore ({ a-tagged })
file-known-are = on connaît { $known }
file-known-are-and-more = on connaît { $known } et { $more } autres
file-section-expected = une section est attendue ici, on trouve { found }
file-key-missing = `{ $key }` manque dans `{ $section }`
file-key-missing-at-top = `{ $key }` manque dans le fichier
file-key-unknown = `{ $key }` n’est pas connu ici
file-list-expected = une liste est attendue ici, on trouve { found }
file-tag-taken = le repère `{ $tag }` est déjà pris
file-tag-taken-help = chaque repère figure une fois dans sa liste ; donnez-en un autre
file-text-expected = un texte entre guillemets est attendu, on trouve { found }
file-truth-expected = `true` ou `false` est attendu, on trouve { found }
file-whole-expected = un nombre entier sans unité est attendu, on trouve { found }
file-count-range = `{ $text }` : un compte de 0 à 1 000 000 000 est attendu
file-number-expected = un simple nombre est attendu, on trouve { found }
file-finite-expected = `{ $text }` : un nombre fini est attendu
file-amount-expected = un texte avec son unité est attendu, on trouve { found }
file-word-expected = `{ $text }` : attendu, un de { $words }
file-radiated-power = `{ $text }` : attendu, une puissance rayonnée qui dit par rapport à quoi et comment elle est comptée, ainsi `500 W ERP total`, `1 kW ERP per plane` ou `820 W EIRP total`
file-day = `{ $text }` : attendu, un jour tel que `2031-03-14`
file-connector = `{ $text }` : attendu, une série et `plug`, `jack` ou `flange`, ainsi `N jack` ou `7/8 EIA flange` ; séries connues : { $series }

file-too-large = le fichier a { $bytes } octets ; on en lit au plus { $limit }
file-too-large-help = ôtez ce qui n’appartient pas à la station
file-nothing-behind = rien ne suit `=`
file-nothing-behind-help = écrivez une valeur, un texte entre guillemets, ou ôtez la clé
file-number-too-large = `{ $text }` : un nombre trop grand
file-syntax = { $why }
file-syntax-at = `{ $text }` : { $why }

file-shelf-is-items = une étagère est une liste de `[[items]]`
file-id-taken = l’identifiant `{ $id }` est déjà pris
file-id-taken-help = chaque identifiant figure une fois dans un fichier

list-no-header = pas d’en-tête avec une colonne `id`
list-no-header-help = donnez à la liste une ligne d’en-tête avec la colonne `id`
list-no-id = une ligne sans identifiant
list-no-id-help = donnez un `id` à la ligne, ou videz-la
list-id-twice = l’identifiant `{ $id }` figure deux fois dans cette liste ; la première ligne compte
