"""Plain sentences about measurement, for a director who is no statistician."""


def agreement_sentences(ratings, found):
    return []
