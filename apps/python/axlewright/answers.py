"""The keys of questions and answers, for type checkers and editors. What they mean stands in api/README.md.

Version 1 of the questions and answers: keys may be added.
"""

import os
from typing import Literal, NotRequired, Required, TypedDict, Union

from numpy.typing import ArrayLike

Path = Union[str, os.PathLike[str]]
Place = list[float]
"""Three coordinates in mm: x forward, y left, z up."""


# Questions


# "with" and "from" are words of the language, so these keys are told apart from the others.
_With = TypedDict("_With", {"with": list[Path]}, total=False)


class _Settable(_With, total=False):
    set: list[str]
    units: Literal["mm", "inch"]


class CheckQuestion(_Settable, total=False):
    file: Required[Path]
    fitted_on: str
    expand: bool


class PoseQuestion(_Settable, total=False):
    file: Required[Path]
    height_mm: float
    rear_height_mm: float
    travel_mm: float
    travel_left_mm: float
    travel_right_mm: float
    lean_deg: float
    steering_wheel_deg: float
    pitman_deg: float
    road_wheels_deg: float
    straight_ahead: bool
    held: bool


class PoseInputs(TypedDict, total=False):
    """The inputs of many poses: each a number, or an array of them."""

    height_mm: ArrayLike
    rear_height_mm: ArrayLike
    travel_mm: ArrayLike
    travel_left_mm: ArrayLike
    travel_right_mm: ArrayLike
    lean_deg: ArrayLike
    steering_wheel_deg: ArrayLike
    pitman_deg: ArrayLike
    road_wheels_deg: ArrayLike
    straight_ahead: bool
    held: bool


class SweepQuestion(_Settable, total=False):
    file: Required[Path]
    heights: int
    rear_height_mm: float
    rear_with_front: bool
    quantity: str


class CompareQuestion(_Settable, total=False):
    files: Required[list[Path]]
    heights: int
    rear_height_mm: float
    rear_with_front: bool


class SetupQuestion(_Settable, total=False):
    file: Required[Path]
    height_mm: float
    heights: int


class StartQuestion(TypedDict, total=False):
    layout: Required[str]
    example_numbers: bool
    units: Literal["mm", "inch"]


class EditQuestion(TypedDict, total=False):
    file: Required[Path]
    set: Required[list[str]]
    units: Literal["mm", "inch"]


# What answers share


class FaultDict(TypedDict):
    severity: Literal["error", "warning"]
    file: str
    line: int
    column: int
    length: int
    what: str
    fix: str
    source_line: str


class Quantity(TypedDict):
    name: str
    words: str
    unit: str
    positive: str
    negative: str


class Request(TypedDict):
    height_mm: float
    rear_height_mm: float
    travel_mm: float
    travel_left_mm: float
    travel_right_mm: float
    lean_deg: float
    steer_by: str
    steer_deg: NotRequired[float]


class Report(TypedDict):
    outcome: str
    certificate: str
    residual_m: float | None
    last_step_m: float | None
    iterations: int
    path_steps: int
    set_aside_miss_m: float | None
    path_reached: NotRequired[float]
    what_ran_out: NotRequired[str]
    how_it_ran_out: NotRequired[str]
    message: NotRequired[str]


class Influence(TypedDict):
    name: str
    coordinate: str
    on: str
    per_mm: float | None
    text: str


class Margin(TypedDict):
    input: str
    unit: str
    asked: float
    end: float
    margin: float
    by: str
    what_ran_out: str
    how_it_ran_out: str
    text: str


class _Head(TypedDict):
    ask: str
    version: int
    truck: str
    file: str
    units: str
    warnings: list[FaultDict]
    story: list[str]
    kits: NotRequired[list[str]]


class _Answer(_Head):
    cautions: list[str]


# check


class Counts(TypedDict):
    bodies: int
    joints: int
    coordinates: int
    equations: int
    inputs: int
    mobility: int


class LooseEffect(TypedDict):
    name: str
    words: str
    per_deg: float
    range: float | None
    where: Request
    place_text: str
    text: str


class Loose(TypedDict):
    name: str
    spin: bool
    idle: NotRequired[bool]
    free_deg: NotRequired[float | None]
    effects: NotRequired[list[LooseEffect]]
    text: str


class SetAside(TypedDict):
    equation: str
    text: str


class Misfit(TypedDict):
    bar: str
    misfit_mm: float
    text: str


class ProofPart(TypedDict):
    of: str
    complete: bool
    height_mm: NotRequired[float]
    stopped_at: NotRequired[Request]
    place_text: NotRequired[str]
    stopped_by: NotRequired[str]


class Proof(TypedDict):
    certificate: str
    steps: int
    smallest_radius_mm: float | None
    largest_h: float | None
    parts: list[ProofPart]
    text: str


class Share(TypedDict):
    part: str
    share: float


class Held(TypedDict):
    way: str
    by: list[Share]
    text: str


class BodyEntry(TypedDict):
    name: str
    carrier: str | None


class JointEntry(TypedDict):
    name: str
    kind: str
    between: list[str]
    holds: int
    at_mm: NotRequired[Place | None]
    ends_mm: NotRequired[list[Place]]
    length_mm: NotRequired[float]


class GuidedBarLengths(TypedDict):
    bar: str
    rule: str
    near_half_mm: float
    guide_half_mm: float
    half_link_mm: float
    half_link_by_rule_mm: float
    on_rocker: bool
    leaves_line_mm: float | None
    text: str


class Gap(TypedDict):
    joint: str
    gap_mm: NotRequired[float]
    gap_deg: NotRequired[float]


class Fight(TypedDict):
    motion: str
    one_opens: bool
    gaps: list[Gap]
    text: str


class Stood(TypedDict):
    lean_deg: float
    lean_plus_minus_deg: float | None
    rake_deg: float
    rake_plus_minus_deg: float | None
    yaw_deg: float
    yaw_plus_minus_deg: float | None


class ReadingMisfit(TypedDict):
    """Numbers in `_mm`, of angles in `_deg`."""

    name: str
    words: str
    coordinate: bool
    value_mm: NotRequired[float]
    value_deg: NotRequired[float]
    fitted_mm: NotRequired[float]
    fitted_deg: NotRequired[float]
    plus_minus_mm: NotRequired[float]
    plus_minus_deg: NotRequired[float]
    by_others_mm: NotRequired[float | None]
    by_others_deg: NotRequired[float | None]
    misfit: float
    normal: float
    checked: float
    text: str


class FittedPoint(TypedDict):
    name: str
    on: str
    measured_mm: Place
    moved_mm: float
    as_stood_mm: Place
    place_mm: Place
    plus_minus_mm: Place


class Measured(TypedDict):
    """What came of fitting a measured truck."""

    axes: Literal["frame", "road", "gauge holes"]
    report: Report
    redundancy: int
    chi_square: float
    chance: float
    chance_of_largest: float
    coordinates: int
    unchecked: int
    worst: str | None
    stood: Stood
    readings: list[ReadingMisfit]
    points: list[FittedPoint]
    text: str
    file_text: NotRequired[str]


class CheckAnswer(_Answer):
    counts: Counts
    soundness: str
    message: str
    loose: list[Loose]
    set_aside: list[SetAside]
    fighting: list[str]
    fights: list[Fight]
    measured: NotRequired[Measured]
    misfits: list[Misfit]
    proof: Proof
    aligned: Report
    holds: NotRequired[list[Held]]
    margins: NotRequired[list[Margin]]
    guided_bars: NotRequired[list[GuidedBarLengths]]
    bodies: NotRequired[list[BodyEntry]]
    joints: NotRequired[list[JointEntry]]


# pose


class BodyPlace(TypedDict):
    name: str
    place_mm: Place
    turn_deg: float
    turn_axis: list[float]
    matrix: list[list[float]]


class PointPlace(TypedDict):
    name: str
    on: str
    place_mm: Place


class Residual(TypedDict):
    equation: str
    residual_m: float
    set_aside: bool


class PoseAnswer(_Answer):
    request: Request
    report: Report
    quantities: list[Quantity]
    values: NotRequired[dict[str, float | None]]
    bodies: NotRequired[list[BodyPlace]]
    points: NotRequired[list[PointPlace]]
    residuals: NotRequired[list[Residual]]


# sweep


class Heights(TypedDict):
    from_mm: float
    to_mm: float
    aligned_mm: float
    rear_mm: float
    rear_with_front: bool


class Group(TypedDict):
    title: str
    main: bool
    names: list[str]


class HeightRow(TypedDict):
    height_mm: float
    report: Report
    smallest_singular_value: float | None
    values: NotRequired[dict[str, float | None]]


class ExtremePlace(TypedDict):
    value: float
    where: Request
    place_text: str


class Extreme(TypedDict):
    name: str
    lowest: ExtremePlace
    highest: ExtremePlace


class Limit(TypedDict):
    name: str
    quantity: str
    words: str
    verdict: str
    unit: str
    min: float | None
    max: float | None
    over: str
    wheel: str
    worst: NotRequired[float]
    margin: NotRequired[float]
    where: NotRequired[Request]
    place_text: NotRequired[str]
    text: str


class Refusal(TypedDict):
    where: Request
    place_text: str
    report: Report


class LockSide(TypedDict):
    reached: bool
    stop: str
    steering_wheel_deg: float | None
    pitman_deg: float | None
    mean_steer_deg: float | None
    outer_deg: float | None
    inner_deg: float | None
    turning_circle_mm: float | None
    kerb_circle_mm: float | None
    ackermann_error_deg: float | None
    ackermann_error_20_deg: float | None
    steering_ratio: float | None


class Lock(TypedDict):
    height_mm: float
    turns: float | None
    left: LockSide
    right: LockSide


class PointsThatMatter(TypedDict):
    quantity: str
    words: str
    unit: str
    where: Request
    place_text: str
    design_moves: list[Influence]
    build_errors: list[Influence]


class TruckSweep(_Head):
    """A sweep as one of several that are compared."""

    heights: Heights
    quantities: list[Quantity]
    groups: list[Group]
    rows: list[HeightRow]
    extremes: list[Extreme]
    limits: list[Limit]
    not_set: list[str]
    not_checked: list[str]
    poses: int
    refused: int
    refusals: list[Refusal]
    locks: list[Lock]
    margins: list[Margin]


class SweepAnswer(TruckSweep):
    points_that_matter: PointsThatMatter
    cautions: list[str]


# compare


class Comparison(TypedDict):
    name: str
    words: str
    unit: str
    positive: str
    negative: str
    worst: list[float | None]
    best: list[int]
    text: str


class CompareAnswer(TypedDict):
    ask: str
    version: int
    units: str
    story: list[str]
    kits: NotRequired[list[str]]
    comparison: list[Comparison]
    trucks: list[TruckSweep]
    cautions: list[str]


# setup


class Adjustment(TypedDict):
    bar: str
    words: str
    length_now_mm: float
    length_then_mm: float
    change_mm: float
    turns: float | None
    text: str


class SetupRow(TypedDict):
    height_mm: float
    report: Report
    wheel_before_deg: float | None
    wheel_after_deg: float | None
    walk_before_mm: float | None
    walk_after_mm: float | None


class SetupAnswer(_Answer):
    height_mm: float
    found: bool
    message: str
    adjustments: list[Adjustment]
    rows: list[SetupRow]


# start


class StartStep(TypedDict):
    step: int
    point: str
    what: str
    accuracy: str
    why: NotRequired[str]


StartStepFrom = TypedDict("StartStepFrom", {"from": str})


class MeasuringStep(StartStep, StartStepFrom):
    pass


class StartAnswer(_Answer):
    layout: str
    file_text: str
    sheet_text: str
    steps: list[MeasuringStep]
    checks: list[str]


# edit


class EditedLine(TypedDict):
    line: int
    before: str
    after: str


class EditedFile(TypedDict):
    file: str
    layer: bool
    before: str
    after: str
    lines: list[EditedLine]


class EditAnswer(TypedDict):
    ask: str
    version: int
    file: str
    files: list[EditedFile]
