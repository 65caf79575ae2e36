"""The service plan: queue + service + people → problem → CP-SAT model → plan, and a checker that knows no solver."""
