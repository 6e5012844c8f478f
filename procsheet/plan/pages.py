"""The manual pages of what can be wrong with a size, a plant or a file."""

PAGES = {
    "pack-content": """Nothing says how much one pack holds, so the batch for a number of packs cannot be worked out.

Why it matters
    A batch for 2000 packs is packs x content x density / lowest yield. Write `declared 75 mL` below `pack`.
""",
    "product-density": """The product's density is not known where it is needed; 1 g/mL is taken.

Why it matters
    Packs are filled by volume and kettles weigh: a cream at 0.95 g/mL fills 5 % more packs than the sheet says.
    Write a density below `limits`.
""",
    "under-least-weight": """An amount is under what any balance of the plant may weigh.

Why it matters
    Every balance has a least weight under which its error is larger than the plant allows. A premix, in the liquid the material
    goes into anyway, makes the amount large enough.

Source
    plant file (`at least`), else 2 x 0.41 d / tolerance: pharmacopoeia chapter on balances
""",
    "vessel-too-small": """No main kettle of the plant holds the batch.

Why it matters
    The batch does not fit. Make a smaller one, split it, or name another plant.
""",
    "vessel-too-empty": """A kettle is filled under its least working volume.

Why it matters
    The stirrer may draw air or not reach the batch, and the jacket heats the wall above it.
""",
    "proven-at": """A batch is ten times larger or smaller than where its method was proven.

Why it matters
    Heat, shear and additions take another time in another kettle. What is written in minutes holds where it was proven, and only there;
    end points hold everywhere. `procsheet differ` shows both sizes beside each other.

Source
    regulators' rule of thumb for scale-up, ten times: from memory
""",
    "tool-uncovered": """A high-shear head is not covered by what its kettle holds when it begins to turn.

Why it matters
    A head that is not covered draws air, throws the batch about and may run dry. It must be covered at all stages, the first charge
    too. The plant file says from what volume on: `homogeniser 0.12 m, 500-3100 rpm, covered from 38 L`.

Source
    process notes on rotor-stators; common practice, no source
""",
    "vessel-lacks": """A kettle that is planned lacks a tool, a jacket or a vacuum that a step asks for.

Why it matters
    The crew stands at the kettle and cannot do what the sheet says. Of all kettles that hold the batch, the one that lacks least is
    planned; `--vessel main=TAG` names another.
""",
    "speed-outside": """A step asks for a speed that the tool of the planned kettle does not turn.

Why it matters
    The crew sets what the drive gives, and nobody knows what that does to drops, powder or air. A tip speed is turned into rpm at the
    diameter of the tool; a range is outside only where no part of it can be set.
""",
    "vessel-named": """A vessel named on the command line is not in the method, or not in the plant.
""",
    "file-missing": """A file that the method names is not there or cannot be read.
""",
    "made-in-a-circle": """A material is made from itself, by way of other methods.
""",
    "revision-unchanged": """Two states of a method differ, and carry the same revision.

Why it matters
    Two different papers would carry one number, and nobody could tell which was followed. `procsheet compare OLD NEW` tells it, beside
    all that changed; count the revision up, and write why.
""",
    "waits-too-long": """The time plan holds up what a step, or the header, does not allow to wait.

Why it matters
    Something that is to be done at once stands about because nobody is free, or bulk waits longer for the filler than it keeps.
    `procsheet timeplan` tells it.
""",
    "accept": """An `accept` line fits no finding, or several, or a slip that cannot be signed for.

Why it matters
    An exception that is signed for must be the one on paper. A stale one may hide the next mistake.
""",
}
