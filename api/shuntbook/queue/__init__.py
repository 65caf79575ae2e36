"""Findings and the rate table → jobs, their inspection and state, the ranked queue, the release."""
