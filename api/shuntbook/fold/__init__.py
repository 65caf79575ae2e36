"""Entries → what stands: voided entries out, versions of a report to heads, heads to findings."""
