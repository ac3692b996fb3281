"""One pair of hands, many drums: which work when, so that as little as possible is late.

``task`` has the words: what is to be done, when it is due, what the shop has, and the plan of it.
``clock`` counts open minutes, ``numbered`` turns away what no shop could do and lays the rest out
for counting, ``worked`` works through an order minute by minute, and ``work_through`` does that
for one order. ``alone`` and ``least_late`` say what no plan can be better than. ``starts`` are
orders to begin from, ``better_order`` searches on, ``proof`` asks a solver for a better plan or
that there is none, and ``plan_shop`` joins them. ``breaks`` looks a plan over and trusts none of
them.
"""
