"""HTTPS on a team's own network: the machine's names, an own CA, the server's certificate, how to trust it."""
