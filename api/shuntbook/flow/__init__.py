"""One function per use case, one transaction each."""
