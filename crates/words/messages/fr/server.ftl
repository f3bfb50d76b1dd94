# What the door says where no desk answers.

server-not-from-here = Ce programme ne répond qu’à cette machine : ouvrez-le par 127.0.0.1 ou localhost
server-nothing-here = il n’y a rien à cette adresse
server-fault = Le calcul n’a pas abouti : c’est une faute du programme. Ce qui était affiché reste valable
server-map-planes = Les plans de la carte n’ont pas la même taille : c’est une faute du programme. Les chiffres restent valables
server-map-lines = Les lignes de la carte n’ont pas pu être tracées : c’est une faute du programme. Les chiffres restent valables
server-paper-header = le nom ou le type du document ne peut pas être écrit dans un en-tête
