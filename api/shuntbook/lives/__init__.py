"""Parts with a life: how much of it they have used over the events that are held, and which are due."""
