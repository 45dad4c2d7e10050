"""What the lesson's answers show that an apprentice can do."""

TELL = "can tell thread forms apart by flank angle, depth and height"
CHOOSE = "can choose a form by its load and motion, and set it the right way round"
PUSH = "can work out outward push and efficiency from the flank angle"
LEAD = "can work out travel, lead angle and turns with several starts"
TWO = "can work out the travel of two threads on one spindle"
