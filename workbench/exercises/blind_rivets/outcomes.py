"""What the lesson's answers show that an apprentice can do."""

GRIP = "can work out grip and room, and choose the length for them"
SET = "can choose hole, body and mandrel, and judge a set rivet"
HOLD = "can tell what a blind rivet holds, also in thin or soft sheet"
COST = "can work out labour, cost and break-even of a fastening"
