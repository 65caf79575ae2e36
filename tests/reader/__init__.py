"""A screen reader at the app: what a person who does not see it hears."""
