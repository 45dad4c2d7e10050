"""What the lesson's answers show that an apprentice can do."""

READ_METRIC = "can read a metric measuring screw to 0.01 mm and to 0.001 mm"
READ_INCH = "can read an inch measuring screw, and compare thou with millimetres"
ZERO = "can find a zero error and take it off with its sign"
DIAL = "can work out travel and divisions of a feed screw and its dial"
JUDGE = "can say what heat and doubt do to a measured size"
PREPARE = "can prepare for a measurement and take it safely"
