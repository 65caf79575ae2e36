"""Builds the app into the wheel, so that an installed wheel runs with no Node and no registry."""

import sys
from pathlib import Path
from typing import Any

from hatchling.builders.hooks.plugin.interface import BuildHookInterface

sys.path.insert(0, str(Path(__file__).parent / "tools"))

import node


class AppBuildHook(BuildHookInterface[Any]):
    """Runs before a wheel is packed; an editable install serves pwa/dist of the checkout instead."""

    def initialize(self, version: str, build_data: dict[str, Any]) -> None:
        """Build the app and add it to the wheel as shuntbook/pwa."""
        if self.target_name == "wheel" and version != "editable":
            build_data["force_include"][str(node.build(fresh=True))] = "shuntbook/pwa"
