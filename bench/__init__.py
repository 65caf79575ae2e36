"""Speed and memory, as ratios measured side by side in one run: `make bench`."""
