"""Statistics of a few test pieces: what one reading in twenty falls under or over, with a scatter known beforehand.

Readings are taken to be log-normal: deviations are those of their logarithms.
"""

from math import atan, cos, exp, log, pi, sin, sqrt

from fasten.require import at_least, not_negative, positive, refuse

ONE_IN_TWENTY = 0.05
FRACTILE = 1.645  # deviations between a mean and what one in twenty falls under, of a scatter that is known
LEAST_OUTLIER = 3
_STEPS = 200


def log_mean(*, readings: tuple[float, ...]) -> float:
    """Geometric mean of readings, exp(mean ln x).

    readings: what each test piece bore [-]
    Returns: geometric mean, in the unit of the readings [-]
    Raises: ValueError without a reading, or for one not above 0.
    Source: EN 1990 annex D.7.2, log-normal form
    """
    _read(readings)
    return exp(sum(map(log, readings)) / len(readings))


def log_deviation(*, readings: tuple[float, ...], prior: float, prior_readings: float) -> float:
    """Deviation of the logarithms of readings with what is known of it beforehand.

    s''² = (n' s'² + (n - 1) s²) / (n' + n - 1), s the deviation of ln x.
    readings: what each test piece bore [-]
    prior: deviation of ln x known beforehand, s' [-]
    prior_readings: degrees of freedom it is worth, n' [-]
    Returns: deviation of ln x [-]
    Raises: ValueError without a reading, for one not above 0, or for a prior not above 0.
    Source: JCSS Probabilistic Model Code part 3 annex A with no prior mean; ISO 2394
    """
    _read(readings)
    positive(prior=prior, prior_readings=prior_readings)
    logs = [log(value) for value in readings]
    mean = sum(logs) / len(logs)
    spread = sum((value - mean) ** 2 for value in logs)
    return sqrt((prior_readings * prior**2 + spread) / (prior_readings + len(logs) - 1))


def characteristic(*, mean: float, deviation: float, student: float, count: int, error: float) -> float:
    """What one test piece in twenty falls under, X_k = m exp(-t s sqrt(1 + 1/n)) / (1 + e).

    mean: geometric mean of the readings [-]
    deviation: deviation of ln x [-]
    student: t at 95 % for the degrees of freedom of that deviation [-]
    count: readings, n [-]
    error: what the instrument may be off by, as a share; 0 where the tool that measured also sets [-]
    Returns: characteristic value, in the unit of the readings [-]
    Raises: ValueError for a mean not above 0, a deviation, t or error below 0, or no reading.
    Source: JCSS Probabilistic Model Code part 3 annex A; EN 1990 annex D.7.2
    """
    positive(mean=mean)
    not_negative(deviation=deviation, student=student, error=error)
    at_least(1, "without a reading there is nothing to go by", count=count)
    return mean * exp(-student * deviation * sqrt(1 + 1 / count)) / (1 + error)


def upper_characteristic(*, mean: float, deviation: float, student: float, count: int) -> float:
    """What one test piece in twenty goes over, m exp(t s sqrt(1 + 1/n)).

    mean: geometric mean of the readings [-]
    deviation: deviation of ln x [-]
    student: t at 95 % for the degrees of freedom of that deviation [-]
    count: readings, n [-]
    Returns: upper characteristic value, in the unit of the readings [-]
    Raises: ValueError for a mean not above 0, a deviation or t below 0, or no reading.
    Source: JCSS Probabilistic Model Code part 3 annex A, the other side
    """
    positive(mean=mean)
    not_negative(deviation=deviation, student=student)
    at_least(1, "without a reading there is nothing to go by", count=count)
    return mean * exp(student * deviation * sqrt(1 + 1 / count))


def mean_equivalent(*, characteristic: float, prior: float) -> float:
    """What stands in for a tabled mean under a factor that already holds the scatter, X_k exp(1.645 s').

    characteristic: what one in twenty falls under [-]
    prior: deviation of ln x that the factor holds, s' [-]
    Returns: the mean it stands for, in the same unit [-]
    Raises: ValueError for a characteristic value not above 0, or a deviation below 0.
    Source: EN 1990 annex D.7.2 with known scatter, turned round: own derivation
    """
    positive(characteristic=characteristic)
    not_negative(prior=prior)
    return characteristic * exp(FRACTILE * prior)


def outlier_ratio(*, readings: tuple[float, ...]) -> float:
    """Grubbs' ratio, how far the outermost reading is off the mean, max|x - m| / s.

    readings: what each test piece bore [-]
    Returns: ratio, 0 where all are alike [-]
    Raises: ValueError for fewer than three readings.
    Source: Grubbs; NIST/SEMATECH e-Handbook of Statistical Methods 1.3.5.17.1
    """
    _three(len(readings))
    mean = sum(readings) / len(readings)
    deviation = sqrt(sum((value - mean) ** 2 for value in readings) / (len(readings) - 1))
    return 0.0 if deviation == 0 else max(max(readings) - mean, mean - min(readings)) / deviation


def outlier_limit(*, count: int) -> float:
    """What Grubbs' ratio comes to by chance in one of twenty samples, both ends looked at.

    (n - 1)/sqrt(n) x sqrt(t² / (n - 2 + t²)), t at 1 - 0.05/(2n) with n - 2 degrees of freedom.
    count: readings, n [-]
    Returns: critical ratio [-]
    Raises: ValueError for fewer than three readings.
    Source: Grubbs; NIST/SEMATECH e-Handbook of Statistical Methods 1.3.5.17.1
    """
    _three(count)
    student = student_quantile(over=ONE_IN_TWENTY / (2 * count), freedom=count - 2)
    return (count - 1) / sqrt(count) * sqrt(student**2 / (count - 2 + student**2))


def student_quantile(*, over: float, freedom: int) -> float:
    """Student's t that so large a share of its distribution lies over.

    over: share beyond it, above 0 and below 0.5 [-]
    freedom: degrees of freedom [-]
    Returns: t [-]
    Raises: ValueError for a share outside 0 to 0.5, or no degree of freedom.
    Source: Student; the finite sums of Abramowitz and Stegun 26.7.3 and 26.7.4, solved by halving
    """
    if not 0 < over < 0.5:
        raise refuse("over", over, "0 to 0.5", "only the upper half is looked at")
    at_least(1, "a scatter has at least one degree of freedom", freedom=freedom)
    low, high = 0.0, 1.0
    while _beyond(high, freedom) > over:
        low, high = high, 2 * high
    for _ in range(_STEPS):
        middle = (low + high) / 2
        low, high = (middle, high) if _beyond(middle, freedom) > over else (low, middle)
    return (low + high) / 2


def _beyond(student: float, freedom: int) -> float:
    """The share of Student's distribution over a value of 0 or more."""
    angle = atan(student / sqrt(freedom))
    odd = freedom % 2 == 1
    term = cos(angle) if odd else 1.0
    total = 0.0 if freedom == 1 else term
    for step in range(3 if odd else 2, freedom - 1, 2):
        term *= cos(angle) ** 2 * (step - 1) / step
        total += term
    within = 2 / pi * (angle + sin(angle) * total) if odd else sin(angle) * total
    return (1 - within) / 2


def _read(readings: tuple[float, ...]) -> None:
    at_least(1, "without a reading there is nothing to go by", count=len(readings))
    for reading in readings:
        positive(reading=reading)


def _three(count: int) -> None:
    if count < LEAST_OUTLIER:
        raise refuse("count", count, f"at least {LEAST_OUTLIER}", "of two, none is further out than the other")
