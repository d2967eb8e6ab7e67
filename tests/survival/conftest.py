"""No deadline for one example: the first may load scipy, and a busy machine is no fault of the numbers."""

from hypothesis import settings

settings.register_profile("no deadline", deadline=None)
settings.load_profile("no deadline")
