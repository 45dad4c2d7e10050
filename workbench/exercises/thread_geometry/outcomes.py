"""What the lesson's answers show that an apprentice can do."""

DIAMETERS = "can find the diameters of a metric thread from one triangle"
PAIR = "can work out limits and play of a screw and its nut"
GAUGE = "can measure over wires and judge with gauges"
TAP = "can choose a tapping drill and tap safely"
