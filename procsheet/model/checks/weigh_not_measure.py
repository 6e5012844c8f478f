"""An alkali, or an oil that makes soap, is measured by volume.

Why it matters
    A measuring cup of lye flakes or oil can be a fifth off. In a soap that is free lye on the skin, or a bar that never sets.

Wrong
    phase C: lye
        20 mL  sodium hydroxide

Right
    phase C: lye
        20 g  sodium hydroxide
"""

from procsheet.findings import Finding, Label


def check(tree, method):
    for row in method.rows:
        if row.measured != "volume" or row.kind == "corrector":
            continue
        alkali = row.material.is_a("base")
        soap = method.header.type == "soap" and row.material.is_a("plant oil", "butter", "fatty acid", "triglyceride")
        if alkali or soap:
            yield Finding("STOP", "weigh-not-measure", f"{row.name} is measured by volume", Label(row.span, "weigh it"),
                          why="A volume of it can be a fifth off: free lye on the skin, or a soap that never sets.",
                          fix="Write the amount as a weight or a percentage.", material=row.name, source="common practice, no source")
