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

file-fault = { $place }  { $what }
file-fault-help = { $place }  { $what } ; { $help }
file-fault-of = `{ $text }` : { $what }

file-format = `{ $format }` : ce programme lit le format 1
file-format-help = écrivez `format = 1`
file-no-such-tag = aucun repère `{ $tag }` ({ a-tagged })
file-did-you-mean = vouliez-vous dire `{ $near }` ?
file-none-yet = le fichier n’en contient pas encore ({ a-tagged })
file-known-are = on connaît { $known }
file-known-are-and-more = on connaît { $known } et { $more } autres
file-section-expected = une section est attendue ici, on trouve { found }
file-key-missing = `{ $key }` manque dans `{ $section }`
file-key-missing-at-top = `{ $key }` manque dans le fichier
file-key-unknown = `{ $key }` n’est pas connu ici
file-list-expected = une liste est attendue ici, on trouve { found }
file-tag-taken = le repère `{ $tag }` est déjà pris
file-tag-taken-help = chaque repère figure une fois dans sa liste ; donnez-en un autre
file-text-expected = un texte entre guillemets est attendu, on trouve { found }
file-no-currency = `{ $given }` n'est pas une monnaie ; écrire ses trois lettres ISO 4217, par exemple `EUR`
file-no-rate = `{ $given }` n'est pas un taux de change : combien d'unités de la monnaie de la station vaut une unité de l'autre, au-dessus de 0
file-truth-expected = `true` ou `false` est attendu, on trouve { found }
file-whole-expected = un nombre entier sans unité est attendu, on trouve { found }
file-count-range = `{ $text }` : un compte de 0 à 1 000 000 000 est attendu
file-number-expected = un simple nombre est attendu, on trouve { found }
file-finite-expected = `{ $text }` : un nombre fini est attendu
file-amount-expected = un texte avec son unité est attendu, on trouve { found }
file-word-expected = `{ $text }` : attendu, un de { $words }
file-radiated-power = `{ $text }` : attendu, une puissance rayonnée qui dit par rapport à quoi et comment elle est comptée, ainsi `500 W ERP total`, `1 kW ERP per plane` ou `820 W EIRP total`
file-day = `{ $text }` : attendu, un jour tel que `2031-03-14`
file-connector = `{ $text }` : attendu, une série et `plug`, `jack` ou `flange`, ainsi `N jack` ou `7/8 EIA flange` ; séries connues : { $series }

file-too-large = le fichier a { $bytes } octets ; on en lit au plus { $limit }
file-too-large-help = ôtez ce qui n’appartient pas à la station
file-nothing-behind = rien ne suit `=`
file-nothing-behind-help = écrivez une valeur, un texte entre guillemets, ou ôtez la clé
file-number-too-large = `{ $text }` : un nombre trop grand
file-not-a = ceci n’est pas : { $what }
file-syntax = { $why }
file-syntax-at = `{ $text }` : { $why }

file-shelf-is-items = une étagère est une liste de `[[items]]`
file-id-taken = l’identifiant `{ $id }` est déjà pris
file-id-taken-help = chaque identifiant figure une fois dans un fichier

list-no-header = pas d’en-tête avec une colonne `id`
list-no-header-help = donnez à la liste une ligne d’en-tête avec la colonne `id`
list-no-id = une ligne sans identifiant
list-no-id-help = donnez un `id` à la ligne, ou videz-la
list-id-twice = l’identifiant `{ $id }` figure deux fois dans cette liste ; la première ligne compte

open-failed = { $path } : { $why }
open-not-text = { $path } : pas du texte en UTF-8 à partir de l’octet { $byte } : enregistrez-le en UTF-8
open-too-large = { $path } : { $bytes } octets ; on en lit au plus { $limit }
open-cell = { $path }:{ $what }
several-lines = { $lines }

ground-none = [ground] ne nomme aucun sol ; écrivez `tiles = "tiles"` (un dossier de tuiles de relief) ou `generated = "rolling plain"`
ground-two = [ground] nomme à la fois `generated` et `tiles` ; ôtez-en un
ground-no-model = [ground] ne dit pas ce que mesurent les tuiles ; écrivez `model = "bare ground"` ou `model = "surface"`
ground-no-site = la station n’a pas encore de site ; une position dans [[sites]] dit quelle partie des tuiles regarder
people-elsewhere = { $path } : aucune grille de population n’atteint la zone d’étude
tiles-none = { $path } : aucune tuile dedans ; les tuiles sont des fichiers `.hgt` et `.tif`, simples ou gzippés

country-unknown = `{ $id }` : pas de tel profil de pays ; sont intégrés { $known } ; le vôtre est `country/{ $id }.toml` dans le dossier

list-kind = { $path } : une liste de prix est un fichier `.toml`, `.csv`, `.xlsx` ou `.ods`
list-csv = { $path } : ligne { $line } : { $why }
list-spreadsheet = { $path } : { $why } : enregistrez-le de nouveau en .xlsx ou en .csv
list-too-large = { $path } : plus de { $limit } cellules ; gardez les lignes et colonnes propres à la liste

save-changed = { $path } : changé sur le disque depuis sa lecture
save-failed =
    { $path } : { $step ->
        [lock] ouverture du verrou du dossier
        [wait] attente d’un autre enregistrement
        [second-file] création d’un second fichier
        [look] examen du fichier
        [rights] reprise des droits de l’ancien fichier
        [write] écriture
        [flush] vidage sur le disque
        [name] prise du nom
       *[folder] vidage du dossier
    } : { $why }

# Les changements demandés.
edit-syntax = le texte a des fautes de syntaxe ; corrigez-les d’abord : { $why }
edit-no-such-place = `{ $path }` : il n’y a pas de `{ $step }` ici ; écrivez le chemin entier, les éléments de liste par leur repère, ainsi `items.TX1.place`
edit-moved = `{ $path }` : on y trouve `{ $found }`, non `{ $expected }` ; regardez de nouveau le fichier avant de le changer
edit-empty = `{ $path }` : rien à changer ; dites ce qui doit y figurer
edit-unfaithful = `{ $path }` : le changement ne peut s’écrire dans ce texte

# Le programme au travail.
office-faults =
    { $count ->
        [one] une faute dans le fichier de station
       *[other] { $count } fautes dans le fichier de station
    }
office-cancelled = interrompu
office-no-words = une phrase manque : { $why }
list-no-sheet = il n’a aucune feuille
