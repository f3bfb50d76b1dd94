# Names and methods of figures, by the figure's stable id with dots as dashes.
