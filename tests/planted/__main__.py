"""python -m tests.planted [--missed] [--write FOLDER] [KIND ...]: the table of planted mistakes."""

import sys
from pathlib import Path

from tests.planted.bench import VERDICTS, run, table
from tests.planted.kinds import KINDS


def main(words: list[str]) -> int:
    folder = Path(words[words.index("--write") + 1]) if "--write" in words else None
    chosen = [word for word in words if not word.startswith("--") and (folder is None or word != str(folder))]
    results = list(run([kind for kind in KINDS if not chosen or any(word in kind.name for word in chosen)]))
    print(table(results))
    for number, one in enumerate(results):
        if "--missed" in words and one.verdict in (*VERDICTS[1:4], "unreadable"):
            print(f"{one.verdict:<12} {one.kind.name:<40} {one.file:<44} {one.told[:160]}")
        if "--harmless" in words and one.verdict == "harmless":
            print(f"{one.verdict:<12} {one.kind.name:<40} {one.file:<44} {one.told[:160]}")
        if folder is not None and one.verdict in VERDICTS[1:4]:
            folder.mkdir(parents=True, exist_ok=True)
            (folder / f"{number:04}-{one.verdict.replace(' ', '-')}-{one.kind.name.replace(' ', '-')}-{one.file}").write_text(f"# {one.told}\n{one.text}", encoding="utf-8")
    return 0


raise SystemExit(main(sys.argv[1:]))
