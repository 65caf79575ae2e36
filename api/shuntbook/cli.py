"""The `shuntbook` command. Exit status 0 done, 1 refused with a reason, 2 wrong usage."""

import sys
from importlib import import_module

import click

from shuntbook import __version__
from shuntbook.kit.damage import is_damage, told
from shuntbook.kit.errors import BadSetup, ShuntbookError

WHERE = {
    "backup": "store:backup_command",
    "bundle": "bundle:bundle_commands",
    "check": "store:check_command",
    "costs": "documents:costs_command",
    "demo": "serve:demo_command",
    "document": "documents:document_command",
    "invite": "store:invite_command",
    "lives": "answers:lives_command",
    "load": "store:load_command",
    "observed": "season:observed_command",
    "plan": "plan:plan_command",
    "queue": "answers:queue_command",
    "rates": "rates:rates_commands",
    "rebuild": "store:rebuild_command",
    "release": "answers:release_command",
    "restore": "store:restore_command",
    "schemas": "schemas:schemas_command",
    "season": "season:season_command",
    "serve": "serve:serve_command",
    "spares": "season:spares_command",
    "statement": "statement:statement_command",
    "team-plan": "plan:team_plan_command",
}
"""Each command's module and name in it: only the one that is called is imported, and with it the solver, the server or
the typesetter that it needs. Together they take a second of the processor's time."""


class Commands(click.Group):
    """The commands, each imported when it is called."""

    def list_commands(self, ctx: click.Context) -> list[str]:
        """Return the names of all commands."""
        return sorted(WHERE)

    def get_command(self, ctx: click.Context, cmd_name: str) -> click.Command | None:
        """Return a command by its name, None where there is none."""
        if cmd_name not in WHERE:
            return None
        module, _, name = WHERE[cmd_name].partition(":")
        command: click.Command = getattr(import_module(f"shuntbook.commands.{module}"), name)
        return command


@click.group(cls=Commands, context_settings={"help_option_names": ["-h", "--help"]})
@click.version_option(__version__, prog_name="shuntbook")
def commands() -> None:
    """From a hit on a stage to the repair queue, the sign-off and the bill."""


def main() -> None:
    """Run the command line; the outermost edge, where an error becomes a sentence and an exit status."""
    try:
        commands(standalone_mode=False)
    except click.exceptions.Exit as leave:
        sys.exit(leave.exit_code)
    except click.UsageError as error:
        error.show()
        sys.exit(2)
    except click.Abort:
        sys.exit(1)
    except ShuntbookError as error:
        _refuse(error)
        sys.exit(1)
    except Exception as error:
        if not is_damage(error):
            raise
        click.echo(told(error), err=True)
        sys.exit(1)


def _refuse(error: ShuntbookError) -> None:
    click.echo(str(error), err=True)
    if isinstance(error, BadSetup):
        click.echo(
            f"{len(error.faults)} faults; nothing was changed. Fix them and load again.",
            err=True,
        )


if __name__ == "__main__":
    main()
