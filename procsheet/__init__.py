"""procsheet: compile a manufacturing method into a checked, scaled, printed work instruction.

    from pathlib import Path
    from procsheet import compile_method, read_source

    compiled = compile_method(read_source(Path("cream.method"), "cream.method"), Path("."))
    for finding in compiled.findings:
        print(finding.level, finding.name, finding.title)

The names below are the public ones; each is loaded when it is first asked for.
"""

from importlib import import_module

__version__ = "0.1.0"

PUBLIC = {
    "compile_method": "procsheet.pipeline", "Request": "procsheet.pipeline", "Compiled": "procsheet.pipeline",
    "read_source": "procsheet.model.files", "Options": "procsheet.model.resolve", "Order": "procsheet.plan.plan",
    "read_size": "procsheet.plan.size", "Finding": "procsheet.findings", "show": "procsheet.show", "lay_out": "procsheet.sheet.lay_out",
    "Papers": "procsheet.sheet.papers", "to_html": "procsheet.sheet.html", "to_pdf": "procsheet.sheet.pdf", "to_text": "procsheet.sheet.text",
}
__all__ = [*PUBLIC, "__version__"]


def __getattr__(name: str):
    if name not in PUBLIC:
        raise AttributeError(f"procsheet has no {name}")
    return getattr(import_module(PUBLIC[name]), name)
