"""What the lesson's answers show that an apprentice can do."""

BATH = "can set a furnace by the alloy's band, and time soak and quench"
CLOCK = "can keep a batch's clock, through the cold store and past midnight"
DECIDE = "can choose the limit for the use, and say what happens to a doubtful rivet"
PLAN = "can work out portions and batches so that no rivet is short"
