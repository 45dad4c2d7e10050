"""What the lesson's answers show that an apprentice can do."""

PREPARE = "can prepare safely, find a zero error and take it off with its sign"
READ = "can read a metric and an inch measuring screw to its last figure"
DIAL = "can work out travel and divisions of a feed screw and its dial"
JUDGE = "can compare measured sizes, and say what heat and doubt do to them"
