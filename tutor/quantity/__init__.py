"""Numbers, units, dimensions, rounding and pi."""
