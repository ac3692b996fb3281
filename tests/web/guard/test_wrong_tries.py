"""Wrong tokens are slowed; times by hand: 1, 2, 4, ... seconds, at most 60."""

from __future__ import annotations

import pytest

from counterhoop.web.guard import pairing
from counterhoop.web.guard.pairing import PairedInMemory, digest_of, holder, let_in, same_digest
from counterhoop.web.guard.wrong_tries import MOST_PLACES, WrongTries

SAME = "Sec-Fetch-Site: same-origin"


def enter(door, token):
    return door.post("/enter", SAME, body=f"token={token}".encode())


def test_each_wrong_try_doubles_the_wait(door):
    waits = []
    for _ in range(8):
        assert enter(door, "wrong").status == 403
        said = enter(door, "wrong")
        assert said.status == 429
        waits.append(int(said.headers["retry-after"]))
        door.clock.s += waits[-1]
    assert waits == [1, 2, 4, 8, 16, 32, 60, 60]


def test_while_one_waits_a_good_token_is_not_even_looked_at(door):
    token = door.settings.links.make(now=door.clock.now())
    enter(door, "wrong")
    assert enter(door, token).status == 429
    door.clock.s += 1
    assert enter(door, token).status == 303
    # A good one clears the slate.
    assert enter(door, "wrong").status == 403
    assert enter(door, "wrong").headers["retry-after"] == "1"


def test_bearer_tokens_are_slowed_too(door):
    good = door.pair(kind="program")
    for wrong in ("Authorization: Bearer nope", "Authorization: Basic bm9wZTpub3Bl"):
        said = door.ask("GET /", wrong)
        assert said.status == 401
        assert door.ask("GET /", good).status == 429
        door.clock.s += 60
    assert door.ask("GET /", good).status == 200


def test_whoever_is_in_is_not_slowed_by_somebody_elses_tries(door):
    enter(door, "wrong")
    assert door.ask("GET /", door.pair()).status == 200


def test_a_place_is_forgotten_after_a_quarter_of_an_hour():
    now = [0.0]
    tries = WrongTries(clock=lambda: now[0])
    for _ in range(5):
        tries.wrong("a")
    assert tries.wait_s("a") == 16
    now[0] = 900.0
    tries.wrong("a")
    assert tries.wait_s("a") == 1
    assert tries.wait_s("b") == 0


def test_the_list_of_places_does_not_grow_for_ever_nor_the_wait():
    tries = WrongTries(clock=lambda: 0.0)
    for number in range(MOST_PLACES + 10):
        tries.wrong(str(number))
    assert tries.wait_s("9") == 0
    assert tries.wait_s("10") == 1
    for _ in range(3000):
        tries.wrong("a")
    assert tries.wait_s("a") == 60


@pytest.mark.parametrize("place", [0, 3, 6, None])
def test_comparing_takes_the_same_steps_wherever_the_right_one_stands(monkeypatch, place):
    """Seven comparisons by the constant-time one of the standard library, never fewer."""
    digests = [digest_of(f"secret {number}") for number in range(7)]
    wanted = digest_of("none of them") if place is None else digests[place]
    compared = []
    original = pairing.hmac.compare_digest
    monkeypatch.setattr(
        pairing.hmac, "compare_digest", lambda a, b: compared.append(b) or original(a, b)
    )
    assert same_digest(wanted, digests) == place
    assert compared == digests


def test_a_secret_is_kept_nowhere(utc_noon):
    paired = PairedInMemory()
    secret = let_in(paired, name="phone", kind="browser", now=utc_noon)
    (device,) = paired.listed()
    assert secret not in repr(device)
    assert holder(paired, secret=secret, kind="browser") == device
    assert holder(paired, secret=secret, kind="program") is None


def test_a_number_is_not_given_twice(utc_noon):
    paired = PairedInMemory()
    for name in ("a", "b"):
        let_in(paired, name=name, kind="browser", now=utc_noon)
    paired.strike_off(2)
    let_in(paired, name="c", kind="browser", now=utc_noon)
    assert [device.number for device in paired.listed()] == [1, 3]
    with pytest.raises(ValueError, match="let in"):
        paired.strike_off(2)
