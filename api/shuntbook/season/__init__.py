"""What a season teaches: observed minutes, parts to carry, damage event by event. Values in, values out."""
