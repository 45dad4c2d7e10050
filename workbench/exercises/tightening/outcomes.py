"""What the lesson's answers show that an apprentice can do."""

CLAMP = "can work out clamp force and torque, and what oil does to them"
WRENCH = "can set and pull a torque wrench safely, with adaptor, drag and unit"
JOINT = "can work out what the bolt feels, what clamp is left, and when a joint opens"
STACK = "can check that the nut clamps, and tighten a ring of bolts evenly"
