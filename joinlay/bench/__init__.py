"""A page at the bench: the piece in the browser while its job file is written, on the maker's own computer.

One program, one job, one page: ``Draft`` holds the job's text as it stands in the file and as it is being written, with what was
before; ``Showing`` works out what is to be seen of it and keeps the last drawing that was good; ``application()`` answers the
browser with both, and ``Guard`` lets nothing through that isn't from this page. No size is worked out here: marks come from
``pictures``, findings and mends from the plan and ``documents``.

The browser is sent HTML and shows it; htmx puts each answer in its place, and ``bench.js`` has what HTML can't say: keys, the
caret, zoom. Nothing is fetched from elsewhere, and no script stands in a page, so that the strictest Content-Security-Policy
holds.

How a page or a piece of one is added: a function in a module of its own that takes a ``Desk`` (the draft, what is shown, the
templates) and a request and gives a response; a ``Route`` to it in ``routes()`` there, added to the list in ``application()``;
its HTML in ``sheets/``, where everything is escaped. What changes anything is a POST: the guard then asks for the token that only
this page knows. A page for others than this computer is a guard of its own with other hosts, over routes of its own.
"""

from joinlay.bench.application import Desk, application
from joinlay.bench.draft import Draft
from joinlay.bench.guard import Guard
from joinlay.bench.serving import serve
from joinlay.bench.showing import Showing

__all__ = ["Desk", "Draft", "Guard", "Showing", "application", "serve"]
