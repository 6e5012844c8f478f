"""Commas that join and commas that only breathe; `or` between things and `or` before a clause."""

from procsheet.syntax.figures import Token

ENDS_ITEM = {"STRING", "PHASE", "NAME", "HOLD", "OPEN"}
STARTS_ITEM = {"STRING", "PHASE", "NAME", "HOLD", "PORTION", "FRACTION"}


def settle(raw: list[Token]) -> list[Token]:
    """Drop the commas that only breathe, and tell `or` before a clause from `or` between things."""
    out: list[Token] = []
    for index, made in enumerate(raw):
        following = raw[index + 1] if index + 1 < len(raw) else None
        after = following.type if following is not None else ""
        if made.type == "BOUNDED":
            side, number = made.value
            out += [Token("BOUND", side, made.start_pos, made.start_pos), Token("QTY", number, made.start_pos, made.end_pos)]
        elif made.type in ("COMMA", "AND") and after == "TOOL" and out and out[-1].type not in ("TOOL", "STRING", "OPENER"):
            out.append(Token("OPENER", "with", made.start_pos, made.end_pos))           # `with anchor at 20 rpm and homogeniser`
        elif made.type == "OR" and after == "TOOL" and out and out[-1].type not in ("TOOL", "STRING"):
            out += [Token("CLAUSE_OR", "or", made.start_pos, made.end_pos), Token("OPENER", "with", made.end_pos, made.end_pos)]
        elif made.type == "COMMA":
            if following is not None and out and _goes_on(out, following, raw, index):
                out.append(Token("AND", ",", made.start_pos, made.end_pos))
        elif made.type == "OR" and after in ("OPENER", "PHRASE", "BOUND"):
            out.append(Token("CLAUSE_OR", "or", made.start_pos, made.end_pos))
        elif made.type == "AND" and (out and out[-1].type == "AND" or after in ("OPENER", "PHRASE")):
            continue                                                                    # `A, B, and C`; `over 5 min and with anchor`
        else:
            out.append(made)
    return _retyped(out)


def _goes_on(out: list[Token], following: Token, raw: list[Token], index: int) -> bool:
    """Whether a comma joins two things of a list."""
    last = out[-1]
    if last.type in ("TOOL", "STATE"):
        return following.type in (last.type, "STRING")
    if following.type in ("AND", "TOOL", "STATE"):
        return following.type == "STATE" and last.type == "STRING"
    if following.type == "QTY" and index + 2 < len(raw) and raw[index + 2].type == "OF":
        return last.type in ENDS_ITEM
    if last.type == "NAME" and following.type == "NAME" and len(out) > 1 and out[-2].type == "OPENER":
        return False                                        # `to main, slowly` misspelt is no list of vessels
    return last.type in ENDS_ITEM and following.type in STARTS_ITEM and following.value != "then"


def _retyped(out: list[Token]) -> list[Token]:
    """`with "mixer" and anchor`, `until "no foam" and clear`: words in quotes in a list of tools or end points are of the list's kind."""
    for index, made in enumerate(out):
        if made.type == "STRING" and index + 2 < len(out) and out[index + 1].type in ("AND", "OR") and out[index - 1].type in ("OPENER",
                                                                                                                               "AND", "OR"):
            kind = next((later.type for later in out[index + 2:] if later.type not in ("STRING", "AND", "OR")), "")
            if kind in ("TOOL", "STATE"):
                out[index] = Token(kind, made.value, made.start_pos, made.end_pos)
    return out
