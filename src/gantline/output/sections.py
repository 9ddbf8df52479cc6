"""The sections of a page below the stage: other ways, the worked solution, trying it, and the recap."""

from gantline.lesson import Lesson, Part, Recap, Sight, Trial, Way, Worked

from . import mathml
from .markup import Markup, element, join
from .plates import plate
from .stage import kinds

PLACES = (("account", "The account"), ("ways", "Other ways"), ("worked", "Worked solution"), ("trial", "If you try it"))
GENERAL = (
    "General cautions, not a rating: they replace neither your own rules nor the makers' markings nor the word of a "
    "competent person."
)


def places(part: Part) -> list[tuple[str, str]]:
    """The sections of a rig: id and name."""
    return [(f"{part.key}-{id}", name) for id, name in PLACES if id != "ways" or part.ways]


def _section(part: Part, id: str, level: int, *inside: Markup | None) -> Markup:
    name = dict(PLACES)[id]
    heading = element(f"h{level + 1}", name, id=f"{part.key}-{id}-h")
    label = f"{part.key}-{id}-h {part.key}-title"
    return element("section", heading, list(inside), class_=id, id=f"{part.key}-{id}", aria_labelledby=label)


# -- other ways -------------------------------------------------------------------------------------------------------


def ways(part: Part, level: int) -> Markup | None:
    """A column for every other method; those that decline keep their column, and say why."""
    if not part.ways:
        return None
    columns = [_way(part, way, level + 2) for way in part.ways]
    return _section(
        part, "ways", level, element("p", _agree(part), class_="lead"), element("div", columns, class_="columns")
    )


def _agree(part: Part) -> str:
    """How many ways there are, and how many of them end at the page's number."""
    taken = [way for way in part.ways if not way.refused]
    left = len(part.ways) - len(taken)
    if not taken:
        return "No other way will do for this rig; each says why."
    same = [way for way in taken if way.result == part.worked.results[0]] if part.worked.results else []
    came = f"{len(taken)} more {'way' if len(taken) == 1 else 'ways'}"
    number = (
        f"; {len(same) if len(same) < len(taken) else 'all'} of them end at {same[0].result}" if len(same) > 1 else ""
    )
    return (
        f"{came}{number}. {left} {'declines and says' if left == 1 else 'decline and say'} why."
        if left
        else f"{came}{number}."
    )


def _way(part: Part, way: Way, level: int) -> Markup:
    figure = element("figure", plate(way.scene, f"{part.key}-way-{way.method}-"), class_="plate-figure")
    heading = element(f"h{level}", way.name)
    if way.refused:
        words = element("p", element("strong", "Not here, because"), f" {_lower(way.refused)}")
        elsewhere = element(
            "p", "It works on the shelf's rig ", element("em", way.elsewhere), ".", class_="formula-row"
        )
        end = element("p", "no number given", class_="result none")
        return element("div", heading, figure, words, elsewhere, end, class_="way refused")
    formula = mathml.write(way.formula, kinds(part)) if way.formula else None
    result = element("p", mathml.write(way.result) if way.result else "–", class_="result")
    return element(
        "div", heading, figure, element("p", " ".join(way.sentences)), _whole(part, way),
        element("p", formula, class_="formula-row"), result, class_="way",
    )  # fmt: skip


def _lower(reason: str) -> str:
    """A reason as it goes on after "because"."""
    first = reason.split(" ")[0]
    return (
        reason if first in ("I",) or (not first[1:].islower() and len(first) > 1) else reason[:1].lower() + reason[1:]
    )


def _whole(part: Part, way: Way) -> Markup | None:
    """Every step of the way, for whoever wants it."""
    account = way.account
    if account is None:
        return None
    steps = [
        element("li", account.line(step), (" ", mathml.write(step.formula or step.formula_text, kinds(part)))
                if step.formula or step.formula_text else None)
        for step in account.steps
    ]  # fmt: skip
    return element("details", element("summary", f"All {len(steps)} steps"), element("ol", steps))


# -- worked solution --------------------------------------------------------------------------------------------------


def worked(part: Part, level: int) -> Markup:
    """Given and sought at the left, the lines in the middle, the certificate at the right."""
    solution = part.worked
    return _section(
        part, "worked", level,
        element("div", _sought(part, solution), _lines(part, solution), _certificate(solution, level), class_="desk"),
    )  # fmt: skip


def _sought(part: Part, solution: Worked) -> Markup:
    given = [
        item for n, (name, formula) in enumerate(solution.given)
        for item in (", " if n else None, f"{name} ", mathml.write(formula, kinds(part)))
    ]  # fmt: skip
    return element(
        "div",
        element("figure", plate(solution.scene, f"{part.key}-worked-"), class_="plate-figure"),
        element("p", element("strong", "Given."), " ", given, "."),
        element("p", element("strong", "Taken as true."), f" {solution.taken}"),
        element("p", element("strong", "Find."), f" {solution.find}"),
        class_="sought",
    )


def _lines(part: Part, solution: Worked) -> Markup:
    rows = [
        element("tr", element("th", line.reason, scope="row"),
                element("td", mathml.write(line.formula, kinds(part)), _rounded(line.rounded)),
                element("td", f"({number})", class_="number"), data_parts=" ".join(line.parts))
        for number, line in enumerate(solution.lines, 1)
    ]  # fmt: skip
    head = element("tr", *(element("th", name, scope="col") for name in ("Reason", "Equation", "Line")))
    results = [(", " if n else None, mathml.write(result)) for n, result in enumerate(solution.results)]
    return element(
        "div",
        element("table", element("caption", f"{part.title}: the solution", class_="unseen"),
                element("thead", head, class_="unseen-head"), element("tbody", rows)),
        element("p", results, class_="results") if results else None,
        class_="lines",
    )  # fmt: skip


def _rounded(rounded: str) -> Markup | None:
    return join(" ", mathml.write(rounded)) if rounded else None


def _certificate(solution: Worked, level: int) -> Markup:
    rows = [
        element("tr", element("th", check.name, element("span", mathml.write(check.sum), class_="sum"), scope="row"),
                element("td", check.residual))
        for check in solution.checks
    ]  # fmt: skip
    head = element("tr", element("th", "Check", scope="col"), element("th", "Left over", scope="col"))
    return element(
        "div",
        element(f"h{level + 2}", "Certificate"),
        element("p", "Checked by a second route that shares nothing with the solver."),
        element("table", element("caption", "Checks", class_="unseen"), element("thead", head, class_="unseen-head"),
                element("tbody", rows)),
        element("p", solution.more) if solution.more else None,
        _largest(solution),
        class_="certificate",
    )  # fmt: skip


def _largest(solution: Worked) -> Markup:
    if not solution.checks:
        return element("p", "No pull was found, so there is none to check.")
    return element("p", element("strong", f"Largest residual {solution.largest}"), ", exactly.")


# -- trying it --------------------------------------------------------------------------------------------------------


def trial(part: Part, level: int) -> Markup:
    """What will be read with real wheels, and what to do before anything hangs."""
    tried = part.trial
    scene = element("figure", plate(tried.scene, f"{part.key}-trial-"), class_="plate-figure") if tried.scene else None
    readings = _readings(part.title, tried, level + 2) if tried.readings else None
    cautions = [element("li", caution.says, data_source=caution.source) for caution in tried.cautions]
    before = element(
        "div", element(f"h{level + 2}", "Before anything hangs"), element("ol", cautions),
        element("p", GENERAL, class_="note"), class_="before",
    )  # fmt: skip
    return _section(
        part, "trial", level, element("p", tried.intro, class_="lead"),
        element("div", scene, readings, before, class_="bench" if scene else "bench short"),
        _sight(part, tried.sight, level + 2) if tried.sight else None,
    )  # fmt: skip


def _readings(title: str, tried: Trial, level: int) -> Markup:
    """The table of pulls. It can be scrolled where the page is narrow, and so can be reached by key."""
    head = element(
        "tr", element("th", "Strand", scope="col"), *(element("th", name, scope="col") for name in tried.strands)
    )
    rows = [
        element("tr", element("th", row.name, scope="row"), *(element("td", pull) for pull in row.pulls))
        for row in tried.readings
    ]
    name = f"Pull in each strand, in {tried.unit}"
    table = element("table", element("caption", name), element("thead", head), element("tbody", rows))
    return element(
        "div", element(f"h{level}", "What you will read"),
        element("div", table, class_="wide", tabindex="0", role="region", aria_label=f"{name}: {title}"),
        element("p", tried.note, class_="note"), class_="read",
    )  # fmt: skip


def _sight(part: Part, sight: Sight, level: int) -> Markup:
    """What will be seen: the true pose beside perfect wheels, the words, the sheet for a ruler, the curves."""
    key, found = part.key, sight.seen
    pose = element("figure", plate(sight.scene, f"{key}-seen-"), class_="plate-figure") if sight.scene else None
    words = element(
        "div", element(f"h{level}", "What you will see"),
        element("p", sight.stand_in, class_="note") if sight.stand_in else None,
        element("ol", [element("li", each) for each in found.sees]), element("p", found.why),
        class_="told",
    )  # fmt: skip
    smaller = element("ul", [element("li", one.says) for one in found.smaller])
    heading = element(f"h{level}", "What makes it smaller")
    remedies = element("div", heading, smaller, class_="told") if found.smaller else None
    curves = [
        element("figure", plate(scene, f"{key}-curve{number}-"), element("figcaption", scene.title), class_="curve")
        for number, scene in enumerate(sight.charts)
    ]
    assumed = element("p", "Assumed, not measured: ", "; ".join(found.assumed), ". Measure yours and write it into the "
                      "file.", class_="note") if found.assumed else None  # fmt: skip
    return element(
        "div", element("div", pose, element("div", words, remedies), class_="sight" if pose else "sight short"),
        element("div", _ruler(part.title, sight, level), curves, class_="measured"), assumed, class_="seen",
    )  # fmt: skip


def _ruler(title: str, sight: Sight, level: int) -> Markup:
    head = element("tr", *(element("th", name, scope="col") for name in sight.ruler.columns))
    rows = [
        element("tr", element("th", row[0], scope="row"), *(element("td", cell) for cell in row[1:]))
        for row in sight.ruler.rows
    ]
    name = "Rope taken in, and how far each axle and load has come up, in mm"
    table = element("table", element("caption", name), element("thead", head), element("tbody", rows))
    return element(
        "div", element(f"h{level}", "With a ruler"),
        element("div", table, class_="wide", tabindex="0", role="region", aria_label=f"{name}: {title}"), class_="read",
    )  # fmt: skip


# -- recap ------------------------------------------------------------------------------------------------------------


def recap(lesson: Lesson) -> Markup:
    """All rigs side by side in a few lines, and the sentence that holds for each."""
    columns = [_recap(part, part.recap) for part in lesson.parts]
    return element(
        "section", element("h2", "Recap", id="recap-h"), element("div", columns, class_="pair"),
        element("p", lesson.wrong_count, class_="thought") if lesson.wrong_count else None,
        element("p", lesson.moral, class_="moral"), class_="recap", id="recap", aria_labelledby="recap-h",
    )  # fmt: skip


def _recap(part: Part, one: Recap) -> Markup:
    facts = [element("li", mathml.write(fact, kinds(part))) for fact in one.facts]
    words = element("div", element("h3", part.title), element("p", one.says),
                    element("ul", facts) if facts else None)  # fmt: skip
    figure = element("figure", plate(one.scene, f"{part.key}-recap-"), class_="plate-figure")
    return element("div", figure, words, class_="one")
