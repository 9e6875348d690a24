"""The pages that are looked at: by visitors, and by members."""

from __future__ import annotations

PUBLIC = (
    *("/", "/?as=table", "/?from=1930&to=1939", "/search", "/search?q=star", "/search?q=xyzzy"),
    *("/search?decade=1930&as=pictures", "/search?as=table&sort=size", "/search?as=timeline"),
    *("/search?q=nine+patch&from=1840&to=1950", "/search/all/colour?q=quilt", "/search/how"),
    *("/quilts/1", "/quilts/1/card", "/patterns", "/patterns/1", "/publications"),
    *("/publications/1", "/people", "/sign-in", "/nothing", "/eras", "/eras/depression"),
    *("/talks", "/talks/1", "/talks/1/slides"),
    *("/related", "/how-dates-are-read", "/exhibits", "/exhibits/2", "/print?quilts=1"),
)
_SECTIONS = (
    *("identity", "arrival", "making", "blocks", "cloth", "inscriptions", "ownership"),
    *("keeping", "story"),
)
MEMBERS = (
    *("/", "/quilts/1", "/quilts/new", "/quilts/1/measurements", "/quilts/1/photographs"),
    *("/changes/quilt/1", "/people", "/people/1", "/people/1/edit", "/people/new"),
    *(
        "/people/alike",
        "/related/new",
        "/house",
        "/safekeeping",
        "/how-dates-are-read",
        "/quilts/1/paragraph",
    ),
    *("/quilts/1/ownership-text", "/quilts/1/phases/1/evidence"),
    *("/talks", "/talks/1", "/talks/2", "/talks/new", "/talks/2/edit", "/talks/2/give"),
    *("/talks/1/given/1", "/search?q=star", "/patterns/1", "/publications/1", "/related/1"),
    *("/patterns/1/edit", "/publications/1/edit", "/quilts/1/measuring-sheet"),
    *("/quilts/6/photographs/8/corners", "/quilts/6/photographs/8/read"),
    *("/quilts/1/working-out", "/quilts/1/working-out?block=12&patches=3&unit=6&centre_width=50"),
    *("/search?condition=good&as=pictures", "/search?as=table", "/search?as=timeline&sort=date"),
    *("/exhibits/new", "/exhibits/2", "/exhibits/2/edit", "/exhibits/2/walls", "/exhibits/1/plan"),
    *("/exhibits/1/light", "/exhibits/1/condition", "/quilts/15/light", "/print/out-of-date"),
    *("/my-account", "/accounts", "/who-sees-what", "/put-away", "/watch-book", "/safekeeping"),
    *("/print?quilts=1,2&kind=label", "/print?exhibit=2&kind=card&paper=A4"),
    *(f"/quilts/1/edit/{key}" for key in _SECTIONS),
)
