"""Constants as the questions print them."""

GRAVITY = 9.81  # m/s2: the value that the questions state and a pocket calculator takes
