"""What the lesson's answers show that an apprentice can do."""

DECODE = "can read a call-out and write it in full, with the pitch that was left out"
LEAD = "can tell pitch, lead and starts apart, and left hand from right hand"
LENGTHS = "can work out the length to order and the plain part under the head"
CLASSES = "can say what tolerance classes and property classes allow"
CHOOSE = "can measure a thread and pick the right screw among look-alikes"
