"""Thin routes: a request is checked, a flow is called, its answer written."""
