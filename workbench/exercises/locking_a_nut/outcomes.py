"""What the lesson's answers show that an apprentice can do."""

KIND = "can choose a lock by what it holds and by what it costs"
SLOT = "can bring a slot to the hole by the kind of joint"
CLAMP = "can work out way and clamp up to the next slot, and stop before the limit"
PIN = "can place the hole for a split pin, and size and fit the pin"
