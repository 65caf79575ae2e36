"""What a team fixes before the start: event, car map, rate table and van stock, from files."""
