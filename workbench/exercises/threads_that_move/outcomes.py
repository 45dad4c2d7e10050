"""What the lesson's answers show that an apprentice can do."""

CHOOSE = "can choose a screw for its machine, and set it the right way round"
TORQUE = "can work out the torque and the hand force that raise and lower a load"
HOLD = "can work out whether a screw runs back, and say what must hold its load"
HALVES = "can work out what sloping flanks give a half nut, and what they cost"
