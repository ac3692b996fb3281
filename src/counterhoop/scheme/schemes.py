"""All schemes for one drum: from as found and a wish to a ranked list."""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from dataclasses import dataclass, replace

from counterhoop.errors import BadInput
from counterhoop.fittings.book import Book
from counterhoop.fittings.entry import Kind
from counterhoop.scheme.code import code_for, code_of, same_code
from counterhoop.scheme.draft import Draft, draft_of
from counterhoop.scheme.findings.all_checks import look_over
from counterhoop.scheme.ground import ground_of
from counterhoop.scheme.layout import Layout
from counterhoop.scheme.plan import EDGES_AND_FINISH, Criteria, Scheme
from counterhoop.scheme.price import money_minor, parts_of, work_of
from counterhoop.scheme.rank import Ranked, rank
from counterhoop.scheme.rods import plan_rods
from counterhoop.scheme.settle import settle
from counterhoop.scheme.shows import shown_inside_mm2, shown_outside_mm2
from counterhoop.scheme.trued import changes_anything, trued
from counterhoop.scheme.wishes.back_to_factory import back_to_factory
from counterhoop.scheme.wishes.kit_snare import kit_snare
from counterhoop.scheme.wishes.other_lugs import other_lugs
from counterhoop.scheme.wishes.put_on import move, put_on
from counterhoop.scheme.wishes.second_head import second_head
from counterhoop.scheme.wishes.shorten import depths_for, shorten, shortened
from counterhoop.scheme.wishes.take_out import take_out
from counterhoop.shell.approval import Approval
from counterhoop.shell.drum import Drum
from counterhoop.shell.job import DrumWanted
from counterhoop.shell.shop_rules import ShopFigures, ShopRules
from counterhoop.shell.wish import (
    BackToFactory,
    FinishPlan,
    KitSnare,
    Move,
    OtherLugs,
    PutOn,
    SecondHead,
    Shorten,
    TakeOut,
    Wish,
)


@dataclass(frozen=True, slots=True, kw_only=True)
class Shop:
    """What the workshop brings to every drum: rules, figures, book, stock, approvals."""

    rules: ShopRules
    figures: ShopFigures
    book: Book
    stock: Mapping[str, int]
    approvals: tuple[Approval, ...] = ()


def schemes_for(wanted: DrumWanted, *, shop: Shop, others: tuple[Layout, ...] = ()) -> Ranked:
    """Work out every scheme for one drum and rank them.

    Parameters
    ----------
    wanted : DrumWanted
        The drum as found, what is wanted of it, and its finish plan. Without a wish there is one
        scheme when the finish plan does anything, and none when it does not.
    shop : Shop
        Limits, minutes, prices, the fittings book and the stock.
    others : tuple of Layout
        The other drums of the job, for what must still nest.

    Raises
    ------
    BadInput
        When a wish names what is not there, or asks for what cannot be, or when nothing that it
        allows goes on this drum.
    """
    wanted = trued(wanted)
    schemes = [
        scheme_of(draft, shop=shop, others=others)
        for finish, said in _finish_plans(wanted, rules=shop.rules)
        for draft in _drafts(wanted, finish, said, shop=shop)
    ]
    if wanted.wishes and not schemes:
        raise BadInput(
            "nothing that the wish allows goes on this drum",
            where=f"drums.{wanted.drum.key}.wish",
            given=f"{wanted.drum.depth_mm:.1f} mm deep",
            wanted="more patterns, or a long lug in the book for this depth and thread",
        )
    return rank(schemes, rules=shop.rules, figures=shop.figures)


def as_found(drum: Drum, *, shop: Shop) -> Layout:
    """Return the drum as it stands, before anything is done."""
    draft = draft_of(ground_of(drum, finish=FinishPlan(), book=shop.book))
    return settle(replace(draft, plug_only=()), rules=shop.rules)


def _finish_plans(wanted: DrumWanted, *, rules: ShopRules) -> Iterable[tuple[FinishPlan, str]]:
    """One plan, or one for each depth that a shell may be cut to."""
    cuts = [wish for wish in wanted.wishes if isinstance(wish, Shorten | KitSnare)]
    if not cuts:
        return [(wanted.finish, "")]
    if len(cuts) > 1:
        raise BadInput(
            "a shell is cut down once",
            where=f"drums.{wanted.drum.key}.wish",
            given=" and ".join(f"{wish.depth_mm:.1f} mm" for wish in cuts),
            wanted="one wish with a depth",
        )
    (wish,) = cuts
    depths = depths_for(
        wanted.drum,
        wished_mm=wish.depth_mm,
        free_mm=wish.free_mm,
        end=wish.end,
        rules=rules,
        truing=wanted.finish.truing,
    )
    return [(shortened(wanted.finish, depth), depth.says) for depth in depths]


def _drafts(wanted: DrumWanted, finish: FinishPlan, said: str, *, shop: Shop) -> list[Draft]:
    drafts = [draft_of(ground_of(wanted.drum, finish=finish, book=shop.book)).saying(said)]
    if not wanted.wishes:
        kept = replace(drafts[0], plug_only=()).named(pattern=EDGES_AND_FINISH)
        return [kept] if changes_anything(finish) else []
    for wish in wanted.wishes:
        drafts = [after for before in drafts for after in _meet(before, wish, shop=shop)]
    return drafts


def _meet(draft: Draft, wish: Wish, *, shop: Shop) -> list[Draft]:
    book, rules = shop.book, shop.rules
    match wish:
        case SecondHead():
            return second_head(draft, wish, book=book, rules=rules)
        case OtherLugs():
            return other_lugs(draft, wish, book=book, rules=rules)
        case BackToFactory():
            return back_to_factory(draft)
        case TakeOut():
            return take_out(draft, wish, book=book, rules=rules)
        case PutOn():
            return put_on(draft, wish, book=book, rules=rules)
        case Move():
            return move(draft, wish, rules=rules)
        case KitSnare():
            return kit_snare(draft, wish, book=book, rules=rules)
        case Shorten():
            return shorten(draft, wish, rules=rules)
    raise BadInput("not a wish", given=wish)


def scheme_of(draft: Draft, *, shop: Shop, others: tuple[Layout, ...] = ()) -> Scheme:
    """Settle a draft, check it, and reckon what it costs."""
    layout = settle(draft, rules=shop.rules)
    layout = replace(layout, rods=plan_rods(layout, book=shop.book, rules=shop.rules))
    checked = look_over(
        layout, rules=shop.rules, others=others, figures=shop.figures, book=shop.book
    )
    parts = parts_of(layout, stock=shop.stock, figures=shop.figures)
    work = work_of(layout, extra=draft.work, figures=shop.figures)
    code = code_of(layout, work=draft.work)
    drum = draft.ground.drum.key
    return Scheme(
        drum=drum,
        number=0,
        pattern=draft.pattern,
        title=_title(draft),
        near_misses=draft.spoken,
        layout=layout,
        findings=checked.findings,
        criteria=Criteria(
            cut=sum(hole.verdict.cuts for hole in layout.holes),
            shows_mm2=shown_outside_mm2(layout),
            shows_inside_mm2=shown_inside_mm2(layout),
            money_minor=money_minor(parts, work, figures=shop.figures),
            margin_mm=checked.margin_mm,
        ),
        parts=parts,
        work=work,
        reuse=tuple(row.proof for row in draft.rows),
        made_from=draft,
        code=code,
        centred=draft.centred,
        nearest=checked.nearest,
        extra_holes=sum(hole.verdict.drills for hole in layout.holes),
        family=_family(layout),
        badge_deg=_badge_deg(layout),
        approved=_approved(drum, code, shop.approvals),
    )


def _title(draft: Draft) -> str:
    """One wish reads "long lugs: ..."; several stand one after another."""
    alone = len(draft.steps) == 1
    said = [
        f"{step[0]}{': ' if alone else ', '}{', '.join(step[1:])}" if step[1:] else step[0]
        for step in draft.steps
    ]
    heading = "; ".join(said)
    return heading[:1].upper() + heading[1:]


def _family(layout: Layout) -> str:
    new = [f for f in layout.standing if f.status == "new" and f.row]
    lugs = new or [f for f in layout.standing if f.row]
    names = {f"{f.fitting.family or f.fitting.name} {f.fitting.finish}".strip() for f in lugs}
    return " and ".join(sorted(names))


def _badge_deg(layout: Layout) -> float | None:
    """Angle from the badge to the next batter lug along."""
    badge = next((f for f in layout.standing if f.fitting.kind is Kind.BADGE), None)
    lugs = layout.lugs("batter")
    if badge is None or not lugs:
        return None
    return min((lug.place.along_deg - badge.place.along_deg) % 360.0 for lug in lugs)


def _approved(drum: str, code: str, approvals: tuple[Approval, ...]) -> str:
    """Who said yes to this drum's code, written in any case and with any spaces.

    A yes that was taken back covers nothing, nor does one whose lines are not those of its code.
    """
    for yes in approvals:
        named = yes.drum == drum and same_code(yes.covers, code)
        if (
            named
            and yes.taken_back is None
            and (not yes.lines or code_for(drum, yes.lines) == code)
        ):
            return yes.words
    return ""
