"""What a team fixes before the start: event, car map, rate table and van stock, read from files with every fault named."""
