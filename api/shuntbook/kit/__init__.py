"""What every other package stands on: errors, ids, money, canonical JSON."""
