"""The page of repair: what happened, the routes out of it, and one of them taken."""
