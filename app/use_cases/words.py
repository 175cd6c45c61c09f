"""What is asked of every text that somebody has to write: that it is there, and not too long."""

from curriculum.faults import N_, Fault


def words_faults(text: str, field: str, most: int, missing: str) -> list[Fault]:
    """Why a text can't be taken; `missing` is the sentence where there is none."""
    if not text.strip():
        return [Fault("no-words", missing, field=field)]
    if len(text) > most:
        return [Fault("too-long", N_("at most {most} characters"), {"most": most}, field)]
    return []
