"""What the lesson's answers show that an apprentice can do."""

CHOOSE = "can read a rivet's mark and code, and choose its diameter"
SIZE = "can work out the length and the countersink of a rivet"
LAY_OUT = "can lay out a row and work out what it carries in shear"
JUDGE = "can judge a driven rivet, take a bad one out, and say what is left"
