"""How long a person takes for what a step asks."""

from __future__ import annotations

from dataclasses import dataclass


@dataclass
class Pace:
    """How long a person takes for what the script does: an estimate, in seconds.

    A key, reaching for a thing, a thought before it: keystroke-level model, Card, Moran and Newell,
    The Psychology of Human-Computer Interaction, 1983 (from memory), for a typist of 40 words a
    minute. Reading: 238 words a minute, Brysbaert 2019, Journal of Memory and Language 109 (from
    memory). Laying a rule or a tape on and reading it: a guess, no source.
    """

    spent_s: float = 0.0
    key_s: float = 0.28
    reach_s: float = 1.1
    think_s: float = 1.35
    word_s: float = 60.0 / 238.0
    measure_s: float = 8.0

    def press(self) -> None:
        """Reach for something and press it."""
        self.spent_s += self.think_s + self.reach_s

    def type(self, words: str, *, measured: bool) -> None:
        """Go to a field and type, perhaps after measuring."""
        self.spent_s += self.think_s + self.key_s * (1 + len(words))
        self.spent_s += self.measure_s if measured else 0.0

    def read(self, words: str) -> None:
        """Read."""
        self.spent_s += self.word_s * len(words.split())
