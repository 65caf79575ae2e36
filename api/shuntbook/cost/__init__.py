"""Jobs and what was done about them → cost lines → the cost sheet."""
