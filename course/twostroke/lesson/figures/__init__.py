"""Drawing functions of the lessons' figures: quantities in, a `Picture` out, no widget and no state."""
