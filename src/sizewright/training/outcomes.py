"""What a worksheet teaches, from the families of its lines and the instruments that they ask for."""

from __future__ import annotations

from collections.abc import Sequence

from sizewright.training.skills import Skill

# Families and sources in the order in which they are taught; the sentences go on after "you can".
_BY_FAMILY = {
    "plain sizes": "read a size with its tolerance and give both limits",
    "fits": "find the limits of a tolerance class and say what kind of fit it belongs to",
    "threads": "take a thread's designation apart and say which diameters have limits",
    "angles": "read and reckon angles in degrees and minutes",
    "tapers": "read a taper or slope and say over which length it is measured",
    "geometric": "read a feature control frame and say what lies in which zone, measured from what",
    "texture": "read a surface texture requirement and check it across the lay",
    "holes": "take the requirement of a hole apart and measure each of its parts",
    "depths": "measure a depth from the right face",
    "grooves and slots": "measure widths and bottoms that few instruments reach",
    "radii": "judge and measure radii",
    "edges": "measure chamfers and broken edges",
}
_BY_SOURCE = {
    "general": "apply the general tolerances of a title block",
    "single": "work with a limit that stands alone",
    "none": "tell a size that has no limits of its own from one that has",
}
# Words of an instrument's name, and the skill of reading it.
_BY_TOOL = {
    "caliper": "check and read a caliper",
    "micrometer": "check and read micrometers with light and even force",
    "depth": "hold a base flat and measure downwards",
    "bore": "find the true diameter of a bore at the turning point",
    "gauge": "carry a size over from a gauge, or decide by one that shows no value",
    "gauges": "decide by gauges that show no value",
    "indicator": "work with an indicator on a plate",
    "dial": "read a dial and count its turns",
    "height": "measure from a surface plate",
    "protractor": "lay a protractor on and read its scale",
    "comparator": "measure an outline enlarged",
    "wire": "measure a thread over wires",
    "tester": "trace a face across the lay",
    "rule": "read a rule or tape square on",
    "tape": "read a rule or tape square on",
}
_ALWAYS = (
    "choose an instrument that reaches the feature and reads to a tenth of the tolerance, and give the reason",
    "check an instrument before use and write down what it showed",
    "hold readings against limits and decide, with the reason",
)


def outcomes_of(skills: Sequence[Skill]) -> tuple[str, ...]:
    """The outcomes of a worksheet whose lines exercise `skills`, each said once."""
    families = {skill.family for skill in skills}
    sources = {skill.source for skill in skills}
    words = {word for skill in skills for kind in skill.kinds for word in kind.replace("-", " ").split()}
    found = [text for family, text in _BY_FAMILY.items() if family in families]
    found += [text for source, text in _BY_SOURCE.items() if source in sources]
    found += [text for word, text in _BY_TOOL.items() if word in words]
    return tuple(dict.fromkeys([*found, *_ALWAYS]))
