"""The command that writes the API's description."""

from pathlib import Path

import click

from shuntbook.describing import schema_files


@click.command("schemas")
@click.argument("folder", type=click.Path(file_okay=False, path_type=Path))
def schemas_command(folder: Path) -> None:
    """Write OpenAPI 3.1 and the JSON Schemas, made from the code, to FOLDER."""
    folder.mkdir(parents=True, exist_ok=True)
    for name, data in schema_files().items():
        (folder / name).write_bytes(data)
        click.echo(folder / name)
