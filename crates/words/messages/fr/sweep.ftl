# La chaîne dans la bande.

sweep-no-emission = La station n’a pas d’émission `{ $tag }` ; elle a { $known }.
sweep-not-known = { $tag } : sa clé { $key } n’est pas encore connue.
sweep-unrated = { $tag } n’a ni données de ligne ni pertes au catalogue : la chaîne ne peut pas être calculée à travers lui.
sweep-refused = { $tag } : la chaîne ne peut pas être calculée : { $why }.
sweep-no-power = { $tag } n’a pas encore de puissance.
sweep-measured = { $path } : { $why }

sweep-head = { $tag } : { $power } directs à { $transmitter }, { $frequency }
sweep-carrier = Sur sa porteuse : ROS { $vswr }, affaiblissement d’adaptation { $return }, { $reflected } reviennent, { $loss } jusqu’à l’antenne.
sweep-channel = Dans son canal, ROS de { $vswr } au plus.
sweep-no-limit = Le catalogue ne dit pas à partir de quel ROS l’émetteur se replie.
sweep-never-folds = L’émetteur se replie à partir d’un ROS de { $limit } : nulle part de 87,5 à 108 MHz.
sweep-folds = L’émetteur se replie à partir d’un ROS de { $limit } : { $stretches }.
sweep-stretch = de { $from } à { $to } MHz
sweep-laid = { $path } s’écarte de la prévision de { $mean } en moyenne, de { $worst } au plus (distance des coefficients de réflexion).
sweep-plane = à
sweep-forward = direct W
sweep-back = retour W
sweep-peak = crête V
sweep-mhz = MHz
sweep-vswr = ROS
sweep-return = adapt. dB
sweep-measured-column = mesuré dB
sweep-caution = Wattmètres et analyseurs à l’émetteur seulement puissance coupée et ligne déchargée ; une personne qualifiée mesure.
