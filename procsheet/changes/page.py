"""The change notice as a page: what changed, what it does, who agrees."""

from html import escape

from procsheet.changes.change import SECTIONS, Changes

STYLE = """@page{size:A4;margin:18mm 16mm 20mm;@bottom-right{content:"page " counter(page) " of " counter(pages);font:9pt sans-serif}}
body{font:10.5pt/1.4 "IBM Plex Sans",Helvetica,Arial,sans-serif;color:#000;max-width:180mm;margin:0 auto}
h1{font-size:18pt;margin:0 0 2mm}h2{font-size:12pt;margin:6mm 0 1mm;border-bottom:.5pt solid #000}
table{width:100%;border-collapse:collapse}td,th{text-align:left;vertical-align:top;padding:1.2mm 2mm 1.2mm 0;border-bottom:.25pt solid #999}
th{font-weight:600}tr{break-inside:avoid}.was{color:#444}.sign td{height:12mm;border:.5pt solid #000;padding:1mm 2mm}.line{width:12mm}"""


def page(changes: Changes, reason: str) -> str:
    """HTML of the notice, ready to print."""
    sections = "".join(_section(name, changes) for name in SECTIONS if any(one.section == name for one in changes.changes))
    return (f'<!doctype html><html lang="en"><meta charset="utf-8"><title>Change notice: {escape(changes.new)}</title><style>{STYLE}</style>'
            f"<h1>Change notice</h1><p>From <b>{escape(changes.old)}</b> to <b>{escape(changes.new)}</b></p><p>Reason: {escape(reason) or '<br>' + '_' * 60}</p>{sections or '<p>Nothing changed.</p>'}"
            f'<h2>Agreed</h2><table class="sign">{"".join(_sign(who) for who in ("Written by", "Checked by", "For the brand", "For the filler"))}</table></html>\n')


def _section(name: str, changes: Changes) -> str:
    rows = "".join(f'<tr><td>{escape(one.said)}</td><td class="line">{f"line {one.line}" if one.line else ""}</td></tr>' for one in changes.changes if one.section == name)
    return f"<h2>{escape(name[0].upper() + name[1:])}</h2><table>{rows}</table>"


def _sign(who: str) -> str:
    return f"<tr><td>{who}</td><td>name</td><td>date</td><td>signature</td></tr>"
