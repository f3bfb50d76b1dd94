# What the door says where no desk answers.

server-not-from-here = This program answers to this machine only: open it as 127.0.0.1 or localhost
server-nothing-here = there is nothing at this address
server-fault = This could not be worked out: a fault of the program. What was shown still stands
server-map-planes = The map's planes are not of one size: a fault of the program. The figures still stand
server-map-lines = The map's lines could not be drawn: a fault of the program. The figures still stand
server-paper-header = the paper's name or kind cannot be written into a header
