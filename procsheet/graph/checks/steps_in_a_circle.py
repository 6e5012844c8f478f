"""Steps wait for each other, so that none can begin.

Why it matters
    The words `during`, `after` and `before` tie steps together; tied in a circle nobody can start.

Wrong
    phase C: late
        5 %  glycerin
    method
        add C to main after stirring called adding
        stir main for 5 min after adding called stirring

Right
    phase C: late
        5 %  glycerin
    method
        add C to main called adding
        stir main for 5 min after adding
"""
