"""Write the weighings and the steps as tables, to be filled in on a screen."""

from pathlib import Path

from procsheet.commands.common import OK, STOPPED, Unusable, stem, write
from procsheet.commands.labels import printable


def run(chosen) -> int:
    target = Path(chosen.output or f"{stem(chosen.file)}-weighings.xlsx")
    ending = target.suffix.lower()
    if ending not in (".csv", ".xlsx"):
        raise Unusable(f"{target} ends in neither .csv nor .xlsx")
    made = printable(chosen)
    if made is None:
        return STOPPED
    for path, content in _files(made, chosen.number, target):
        write(path, content)
        print(path)
    return OK


def _files(made, number: str, target: Path) -> list[tuple[Path, str | bytes]]:
    """A workbook with both tables, or a CSV file of each."""
    from procsheet.labels.table import tables
    from procsheet.need.table import to_csv, to_xlsx
    weighings, steps = tables(made, number)
    if target.suffix.lower() == ".xlsx":
        return [(target, to_xlsx((weighings, steps)))]
    return [(target, to_csv(weighings)), (target.with_name(f"{target.stem}-steps{target.suffix}"), to_csv(steps))]
