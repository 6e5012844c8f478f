"""Rewrite what the tests expect: `python -m tests.rewrite`. A person reads the difference before it is kept."""

from tests.sheet.sheets import EXPECTED, recorded


def main() -> None:
    texts = recorded()
    for old in EXPECTED.glob("*.txt"):
        if old.stem not in texts:
            old.unlink()
    for name, text in texts.items():
        (EXPECTED / f"{name}.txt").write_text(text, encoding="utf-8")
        print(EXPECTED / f"{name}.txt")


if __name__ == "__main__":
    main()
