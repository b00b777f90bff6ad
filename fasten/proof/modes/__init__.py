"""Ways in which a joint can fail: each says whether it applies and finds its capacity, or what it needs to."""
