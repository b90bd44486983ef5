"""What a page says of a toy's part in the game: the real thing, a sampled sound, or both."""

from collections.abc import Callable

from guide_gen.model.fields import ToyFields
from guide_gen.model.plan import Sized


def notes_of(toy: ToyFields, real: str, sound: str, both: str) -> tuple[str, ...]:
    """The sentence for how the game uses it, and whether it is silenced after hours."""
    effect = {"real": real, "sound": sound, "both": both}[toy.play.effect]
    loud = ("It counts as loud: it is silenced after hours.",) if toy.play.loud else ()
    return (effect, *loud)


def played(noun: str) -> Callable[[ToyFields, Sized], tuple[str, ...]]:
    """The notes of a toy that can be heard, by what it is called: ``shaker``."""

    def notes(toy: ToyFields, sized: Sized) -> tuple[str, ...]:
        return notes_of(
            toy,
            f"The game drives the real {noun} and plays no sampled sound of it.",
            f"The game plays a sampled sound; the {noun} itself stays off.",
            f"The game drives the {noun} and plays a sampled sound as well.",
        )

    return notes
